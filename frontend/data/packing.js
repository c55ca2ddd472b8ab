/* The packing list: from where to where, how many of each, what is packed; kept until it has moved. */
import { call } from '../core/core-client.js';
import { stateAll } from './actions.js';
import { ask } from './asking.js';
import { bookingsAhead } from './bookings.js';
import { today } from './clock.js';
import { factsOf, factsOfDays } from './facts.js';
import { planOf } from './plans.js';
import { recordById, records } from './records.js';
import { stock } from './stock.js';
import { recall, remember } from './store/remembered.js';
import { placeOf, todaysPlace } from './till.js';

/** The list as it was left: {from, to, pieces: {product: how many}, packed: {product: true}}, and `last`, the day that it
    repeats, or the `booking` whose `plan` it is by; null for none. */
export const packing = () => recall('packing');
export function keepPacking(list) {
  latest = list;
  return remember('packing', list);
}

// as it was left last: what is ticked while others move stays ticked
let latest = null;

/** The usual way, [from, to]: from the shelf at home to the stall of a booking; without one to today's, that of the next
    booking with a plan, or the first there is. */
export function usualWay(booking = null) {
  const known = records('place');
  const from = known.find((place) => place.use === 'home') ?? known[0];
  const planned = booking ?? bookingsAhead().find(({ id }) => planOf('pack', id))?.id;
  const stallOf = (booking ? null : todaysPlace()) ?? placeOf(recordById('booking', planned));
  const to =
    known.find((place) => place.id === stallOf) ??
    known.find((place) => place.use === 'stall' && place !== from) ??
    known.find((place) => place !== from);
  return [from?.id, to?.id];
}

/** The plan that a place is packed for next: {booking, lines}; null where there is none. */
export function planAhead(to) {
  const planned = bookingsAhead().filter((booking) => planOf('pack', booking.id) && (placeOf(booking) ?? to) === to);
  return planned.length ? { booking: planned[0].id, lines: planOf('pack', planned[0].id).lines } : null;
}

/** Whether a list was begun from a plan as it is now. */
export const isByPlan = (list, plan) => list.booking === plan.booking && list.plan === JSON.stringify(plan.lines);

/** A new list: by the plan for the next booking there; where there is none, what was packed the last time that
    anything went this way. */
export async function newPacking(from, to) {
  const plan = planAhead(to);
  if (plan) return byPlan(from, to, plan);
  const { answer } = await call('last_packing', { facts: await factsOf('move'), source: from, target: to });
  return { from, to, last: answer.day, pieces: byProduct(answer.pieces), packed: {} };
}

async function byPlan(from, to, { booking, lines }) {
  const { days } = recordById('booking', booking);
  const facts = await factsOfDays(days);
  const pieces = await ask('to_pack', { planned: lines, stock: await stock(), place: to, facts, booking });
  return { from, to, booking, plan: JSON.stringify(lines), pieces: byProduct(pieces), packed: {} };
}

const byProduct = (rows) => Object.fromEntries(rows.map(({ product, quantity }) => [product, quantity]));

/** Begin the list for a booking, in the stead of the one there is. */
export async function beginPacking(booking) {
  await keepPacking(await newPacking(...usualWay(booking)));
}

/** What is packed: [[product, pieces]]. */
export function packed({ pieces, packed: ticked }) {
  return Object.entries(pieces).filter(([product, quantity]) => ticked[product] && quantity > 0);
}

/** Move what is packed, all or none; what is not packed stays on the list. It leaves the list in the same moment: an app that is
    killed moves nothing twice. */
export async function moveAll(list) {
  const moved = packed(list);
  latest = list;
  await stateAll(moves(list.from, list.to, moved), { packing: without(list, moved) });
  if (latest !== list) await keepPacking(latest && without(latest, moved));
}

// what is left of a list, null for nothing
function without(list, moved) {
  const gone = new Set(moved.map(([product]) => product));
  const left = Object.entries(list.pieces).filter(([product, quantity]) => quantity > 0 && !gone.has(product));
  const ticked = left.filter(([product]) => list.packed[product]).map(([product]) => [product, true]);
  return left.length ? { ...list, pieces: Object.fromEntries(left), packed: Object.fromEntries(ticked) } : null;
}

/** Take a move back: what was packed goes where it came from, and is on the list again. */
export const moveBack = (list) => stateAll(moves(list.to, list.from, packed(list)), { packing: list });

function moves(from, to, rows) {
  return rows.map(([product, quantity]) => ['move', { day: today(), from, to, product, quantity }]);
}
