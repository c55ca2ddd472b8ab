/* A market day looked back on: the days with takings, a day's report and file, its cash boxes. */
import { state } from './actions.js';
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { today } from './clock.js';
import { daysWithTakings, isOfTakings } from './days-with-takings.js';
import { factsOfDay, factsOfDays } from './facts.js';
import { nameOf, timeInWords } from './naming.js';
import { currency } from './preferences.js';
import { recordById, records } from './records.js';
import { stock, stockAt, voids } from './stock.js';
import { recall, remember } from './store/remembered.js';
import { placeOf } from './till.js';

const AT_ONCE = 8;
const SUMMED = ['kind', 'id', 'day', 'booking', 'amount', 'payment'];

/** At least so many days with takings, the latest first, if there are as many:
    {rows: [{day, booking, sales, pieces, amount, …}], more: whether there are earlier ones}. */
export async function daysTaken(most) {
  const [days, voided] = await Promise.all([daysWithTakings(), voids()]);
  const rows = [];
  let done = 0;
  while (done < days.length && rows.length < most) {
    const some = days.slice(done, done + AT_ONCE);
    done += some.length;
    const facts = await factsOfDays(some);
    const slim = facts.filter(isOfTakings).map(slimmed);
    rows.push(...(await ask('days_taken', { facts: slim, voids: voided })));
  }
  return { rows, more: done < days.length };
}

// what of a fact takings are added up from
function slimmed(fact) {
  const names = [...SUMMED, ...kindNamed(fact.kind).leaving];
  const pieces = (rows) => (Array.isArray(rows) ? rows.map(({ quantity }) => ({ quantity })) : rows);
  return Object.fromEntries(names.map((name) => [name, pieces(fact[name])]));
}

/** The bookings of a day, those of its facts first; null stands for what was at none. */
export async function bookingsOfDay(day) {
  // time that was worked is no matter of a market unless it says so
  const money = (await factsOfDay(day)).filter((fact) => fact.booking || ('booking' in fact && (fact.place || fact.box)));
  const booked = records('booking')
    .filter((booking) => booking.days?.includes(day))
    .map(({ id }) => id);
  return [...new Set([...money.map((fact) => fact.booking ?? null), ...booked])];
}

/** What a day at a booking is called: its market, and the day. */
export function marketOf(booking) {
  const record = recordById('booking', booking);
  return record?.name || nameOf('market', recordById('market', record?.market)) || 'No market';
}

/** A day's report at a booking, as the core tells it. With `left` also what was left, which takes longer. */
export async function dayReport(day, booking, left = false) {
  const asked = await reported(day, booking);
  const report = await ask('told_day', asked);
  if (!left || !report.place) return report;
  return ask('told_day', { ...asked, stock: await stockLeft(day, report) });
}

/** The report as a CSV file: its name, its text, its type. */
export async function reportFile(day, booking, report) {
  const stock = report.place && (await stockLeft(day, report));
  const text = await ask('report_csv', { ...(await reported(day, booking)), stock, currency: currency() });
  return [`${day} ${marketOf(booking)}.csv`.replace(/[^\p{L}\p{N}.-]+/gu, '-'), text, 'text/csv'];
}

async function reported(day, booking) {
  const record = recordById('booking', booking);
  const named = ['product', 'piece', 'offer', 'cash-box'].flatMap((kind) => records(kind, true).map((one) => [one.id, nameOf(kind, one)]));
  return {
    facts: await factsOfDay(day),
    voids: await voids(),
    day,
    booking,
    stall: placeOf(record),
    hours: hoursOf(day),
    boxes: records('cash-box', true).map((box) => ({ box: box.id, usual_float: usualFloat(box) })),
    names: Object.fromEntries([...named, [booking, marketOf(booking)]]),
  };
}

// when each hour of a local day began, 23 to 25 of them, and the end of the day
function hoursOf(day) {
  const at = (hours) => new Date(`${day}T00:00`).setHours(hours);
  const end = at(24);
  const hours = [];
  for (let start = at(0); start < end; start += 3600000) {
    hours.push({ at: start, name: timeInWords(start) });
  }
  return [...hours, { at: end, name: '24' }];
}

// the stock when the day ended, before the car was packed; of a day that goes on it is what is there now
async function stockLeft(day, { place, ended_at: ended }) {
  const packed = (await factsOfDay(day)).some((fact) => fact.kind === 'move' && fact.at > ended && [fact.from, fact.to].includes(place));
  const rows = await (day === today() && !packed ? stock() : stockAt(ended, place));
  return rows.filter((row) => row.place === place);
}

/** A cash box on a day, as the core tells it: with counts {value: how many}, or the count kept. */
export async function cashUp({ day, box }, counts) {
  const counted = counts ? Object.entries(counts).map(([value, count]) => ({ value: Number(value), count })) : null;
  return ask('cash_up_of', {
    facts: await factsOfDay(day),
    voids: await voids(),
    day,
    box,
    usual_float: usualFloat(recordById('cash-box', box)),
    counted,
  });
}

const usualFloat = (box) => box?.usual_float ?? 0;

/** Notes and coins to count, the largest first. */
export function denominations() {
  return ask('denominations_of', { denominations: (records('business')[0]?.denominations ?? []).map(({ value }) => value) });
}

/** What is typed for a box and day, as it was left, though the app was killed. */
export const typedFor = (what, { day, box }) => recall('reviewing', {})[`${what} ${day} ${box}`];

/** Keep what is typed; null forgets it. */
export function typeFor(what, { day, box }, typed) {
  const { [`${what} ${day} ${box}`]: old, ...others } = recall('reviewing', {});
  return remember('reviewing', typed ? { ...others, [`${what} ${day} ${box}`]: typed } : others);
}

/** Keep a cash-up; where is {day, booking, box}. */
export function keepCashUp(where, { counted, counted_total: amount }, reason) {
  const rows = counted.filter(({ count }) => count).map(({ value, count }) => ({ value, count }));
  return state('cash-count', { ...where, moment: 'cash-up', amount, counted: rows, reason });
}

/** Keep cash that was paid in or taken out. */
export const keepMovement = (where, direction, amount, reason) => state('cash-movement', { ...where, direction, amount, reason });
