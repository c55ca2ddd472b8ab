/* What market days tell of the next: worked out by the core a day at a time, and kept until what it is made of changes. */
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { daysOfFacts, factsOfDay } from './facts.js';
import { keepIn, keptIn, printOf, standing } from './kept-answers.js';
import { recordsOf } from './records.js';
import { voids } from './stock.js';

// as many as the core learns from
const MOST_DAYS = 60;
// by day and booking what was told, and the print of what it was told from
const SLOT = 'days-sold';

/** The latest market days, the latest last: [{day, booking, and what the core's `sold_at_market` tells}]. `show` is
    told how many of how many are there, where it takes longer. */
export async function daysSold(show) {
  const [found, never] = await Promise.all([marketDays(), voids()]);
  const records = recordsOf(['booking', 'market', 'product']);
  const stood = standing();
  const known = keptIn(SLOT, {});
  const kept = {};
  const told = [];
  let changed = false;
  for (const [index, one] of found.entries()) {
    const { day, booking } = one;
    const facts = one.facts.filter(({ id }) => !(id in never));
    const asked = { facts, records: forDay(records, booking), day, booking, noon: new Date(`${day}T12:00`).getTime() };
    const key = `${day} ${booking}`;
    const print = await printOf([facts.map(({ id }) => id), asked.records, asked.noon]);
    if (known[key]?.print !== print) {
      show(index, found.length);
      known[key] = { print, told: await ask('sold_at_market', asked) };
      changed = true;
    }
    kept[key] = known[key];
    if (kept[key].told) told.push({ day, booking, ...kept[key].told });
  }
  if (changed) await keepIn(SLOT, stood, kept);
  return told;
}

// what the hours of a day and the sizes of its goods are taken from
function forDay({ booking: bookings, market: markets, product }, booking) {
  const { [booking]: booked } = bookings;
  const { [booked?.market]: market } = markets;
  return { booking: booked ? { [booking]: booked } : {}, market: market ? { [booked.market]: market } : {}, product: sizesOf(product) };
}

const sizesOf = (products) => Object.fromEntries(Object.entries(products).map(([id, { size, price, group }]) => [id, { size, price, group }]));

// each with the facts since the day of a market before it, as the stock of a stall is counted from there
async function marketDays() {
  const days = await daysOfFacts();
  const found = [];
  let since = [];
  for (const day of days) {
    const facts = (await factsOfDay(day)).filter(tells);
    const booked = [...new Set(facts.filter(({ kind, booking }) => kind === 'sale' && booking).map(({ booking }) => booking))];
    since.forEach((one) => one.facts.push(...facts));
    if (!booked.length) continue;
    if (found.length >= MOST_DAYS) break;
    since = booked.map((booking) => ({ day, booking, facts: [...facts] }));
    found.push(...since);
  }
  return found.slice(0, MOST_DAYS).reverse();
}

function tells({ kind }) {
  const { stock_at: places, takings, voids: undoes } = kindNamed(kind) ?? {};
  return places?.length > 0 || takings || undoes || kind === 'asked-for';
}
