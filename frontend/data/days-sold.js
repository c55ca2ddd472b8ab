/* What market days tell of the next: worked out by the core a day at a time, and kept until what it is made of changes. */
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { daysChanged } from './changed-days.js';
import { today, zone } from './clock.js';
import { daysOfFacts, nextDayOfFacts } from './facts.js';
import { isKept, keepIn, keptIn, printOf, endOfLog } from './kept-answers.js';
import { recordsOf } from './records.js';
import { voids } from './stock.js';

// as many as the core learns from
const MOST_DAYS = 60;
// so many at a time, as taps are answered in between; what came between two of them is looked at once for both
const AT_ONCE = 4;
// what was told of each, {day, booking, print of what it was told from, told}, and what it was told after: {through, own, described}
const SLOT = 'days-sold';
const NOTHING = { through: 0, own: {}, described: '', days: [] };

/** Whether any were ever told here, or looked for in vain. */
export const everTold = () => isKept(SLOT);

/** The latest market days, the latest last: [{day, booking, and what the core's `sold_at_markets` tells}]. `show` is
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
  const made = await Promise.all(found.map((one) => knownOf(one, never, before, records)));
  const fresh = made.filter(({ told }) => told === undefined);
  for (let done = 0; done < fresh.length; done += AT_ONCE) {
    try {
      show(made.length - fresh.length + done, made.length);
    } catch (left) {
      const there = made.filter(({ told }) => told !== undefined);
      const others = before.filter(({ day, booking }) => !there.some((one) => one.day === day && one.booking === booking));
      await keepSome([...others, ...there].map(plain));
      throw left;
    }
    await tell(fresh.slice(done, done + AT_ONCE), records);
  }
  return [...earlier, ...made].slice(-MOST_DAYS).map(plain);
}

const plain = ({ day, booking, print, told }) => ({ day, booking, print, told });

// what was told of a day from the same, if it was
async function knownOf({ day, booking, since, facts: all }, never, before, records) {
  const facts = all.filter(({ id }) => !(id in never));
  const noon = noonOf(day);
  const print = await printOf([facts.map(({ id }) => id), forDay(records, booking), noon]);
  const last = before.find((one) => one.print === print && one.day === day && one.booking === booking);
  return last ?? { day, booking, print, noon, since, facts };
}

async function tell(some, records) {
  const facts = new Map(some.flatMap(({ facts }) => facts).map((fact) => [fact.id, fact]));
  const each = some.map(({ booking }) => forDay(records, booking));
  const together = (kind) => Object.assign({}, ...each.map((one) => one[kind]));
  const asked = {
    facts: [...facts.values()],
    records: { booking: together('booking'), market: together('market'), product: each[0].product },
    markets: some.map(({ day, booking, noon, since }) => ({ day, booking, noon, since })),
  };
  const told = await ask('sold_at_markets', asked);
  some.forEach((one, index) => Object.assign(one, { told: told[index], facts: null }));
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
  for await (const [day, all] of daysOfFacts(today())) {
    // nothing before it is looked for
    if (day < earliest && !since.length) break;
    const facts = all.filter(tells);
    const booked = [...new Set(facts.filter(({ kind, booking }) => kind === 'sale' && booking).map(({ booking }) => booking))];
    for (const one of since) {
      one.facts.push(...facts);
      one.since = day;
    }
    if (!booked.length) continue;
    if (day < earliest || found.length >= MOST_DAYS) break;
    since = booked.map((booking) => ({ day, booking, since: day, facts: [...facts] }));
    found.push(...since);
  }
  return found.slice(0, MOST_DAYS).reverse();
}

function tells({ kind }) {
  const { stock_at: places, takings, voids: undoes } = kindNamed(kind) ?? {};
  return places?.length > 0 || takings || undoes || kind === 'asked-for';
}
