/* What market days tell of the next: worked out by the core a day at a time, and kept until what it is made of changes. */
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { daysChanged } from './changed-days.js';
import { today, zone } from './clock.js';
import { daysOfFacts, factsOfDay, nextDayOfFacts } from './facts.js';
import { keepIn, keptIn, printOf, endOfLog } from './kept-answers.js';
import { recordsOf } from './records.js';
import { voids } from './stock.js';

// as many as the core learns from
const MOST_DAYS = 60;
// what was told of each, {day, booking, print of what it was told from, told}, and what it was told after: {through, own, described}
const SLOT = 'days-sold';
const NOTHING = { through: 0, own: {}, described: '', days: [] };

/** The latest market days, the latest last: [{day, booking, and what the core's `sold_at_market` tells}]. `show` is
    told how many of how many are there, where it takes longer. */
export async function daysSold(show) {
  const stood = endOfLog();
  const records = recordsOf(['booking', 'market', 'product']);
  // once a day that facts were dated ahead to is there, it is looked at
  const ahead = await nextDayOfFacts(today());
  const described = await printOf([records.booking, records.market, sizesOf(records.product), zone(), ahead]);
  const before = known(stood.cursor ?? 0);
  const { days, now, same } = await daysChanged(before, tells);
  if (same && described === before.described) return told(before.days);
  // what is told of a day rests on no later one
  const earliest = described === before.described ? [...days].sort()[0] : '';
  const keep = (days, as) => keepIn(SLOT, stood, { ...as, days });
  // of what is left half-way the prints say what holds, and all is looked through again
  const keepSome = (days) => keep(days, NOTHING);
  const kept = earliest === undefined ? before.days : await toldSince(earliest, before.days, records, show, keepSome);
  await keep(kept, { ...now, described });
  return told(kept);
}

const told = (days) => days.filter((one) => one.told).map(({ day, booking, told: what }) => ({ day, booking, ...what }));
const noonOf = (day) => new Date(`${day}T12:00`).getTime();

function known(cursor) {
  const before = keptIn(SLOT, NOTHING);
  return before.through > cursor ? NOTHING : before;
}

async function toldSince(earliest, before, records, show, keepSome) {
  const [found, never] = await Promise.all([marketDays(earliest), voids()]);
  const earlier = before.filter(({ day }) => day < earliest);
  const made = [];
  for (const [index, { day, booking, facts: all }] of found.entries()) {
    const facts = all.filter(({ id }) => !(id in never));
    const asked = { facts, records: forDay(records, booking), day, booking, noon: noonOf(day) };
    const print = await printOf([facts.map(({ id }) => id), asked.records, asked.noon]);
    const last = before.find((one) => one.print === print && one.day === day && one.booking === booking);
    try {
      if (!last) show(index, found.length);
    } catch (left) {
      const others = before.filter(({ day, booking }) => !made.some((one) => one.day === day && one.booking === booking));
      await keepSome([...others, ...made]);
      throw left;
    }
    made.push(last ?? { day, booking, print, told: await ask('sold_at_market', asked) });
  }
  return [...earlier, ...made].slice(-MOST_DAYS);
}

// what the hours of a day and the sizes of its goods are taken from
function forDay({ booking: bookings, market: markets, product }, booking) {
  const { [booking]: booked } = bookings;
  const { [booked?.market]: market } = markets;
  return { booking: booked ? { [booking]: booked } : {}, market: market ? { [booked.market]: market } : {}, product: sizesOf(product) };
}

const sizesOf = (products) => Object.fromEntries(Object.entries(products).map(([id, { size, price, group }]) => [id, { size, price, group }]));

// those from a day on, each with the facts since the day of a market before it, as the stock of a stall is counted from there
async function marketDays(earliest) {
  const found = [];
  let since = [];
  // what is said of a day to come tells nothing of it yet
  for await (const day of daysOfFacts(today())) {
    // nothing before it is looked for
    if (day < earliest && !since.length) break;
    const facts = (await factsOfDay(day)).filter(tells);
    const booked = [...new Set(facts.filter(({ kind, booking }) => kind === 'sale' && booking).map(({ booking }) => booking))];
    since.forEach((one) => one.facts.push(...facts));
    if (!booked.length) continue;
    if (day < earliest || found.length >= MOST_DAYS) break;
    since = booked.map((booking) => ({ day, booking, facts: [...facts] }));
    found.push(...since);
  }
  return found.slice(0, MOST_DAYS).reverse();
}

function tells({ kind }) {
  const { stock_at: places, takings, voids: undoes } = kindNamed(kind) ?? {};
  return places?.length > 0 || takings || undoes || kind === 'asked-for';
}
