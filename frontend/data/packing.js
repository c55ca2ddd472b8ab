/* The packing list: from where to where, how many of each, what is packed; kept until it has moved. */
import { call } from '../core/core-client.js';
import { stateAll } from './actions.js';
import { today } from './clock.js';
import { factsOf } from './facts.js';
import { recall, remember } from './store.js';

/** The list as it was left: {from, to, pieces: {product: how many}, packed: {product: true}}; null for none. */
export const packing = () => recall('packing');
export const keepPacking = (list) => remember('packing', list);

/** A new list, with what was packed the last time that anything went this way. */
export async function newPacking(from, to) {
  const { answer } = await call('last_packing', { facts: await factsOf('move'), source: from, target: to });
  return { from, to, last: answer.day, pieces: Object.fromEntries(answer.pieces.map(({ product, quantity }) => [product, quantity])), packed: {} };
}

/** What is packed: [[product, pieces]]. */
export function packed({ pieces, packed: ticked }) {
  return Object.entries(pieces).filter(([product, quantity]) => ticked[product] && quantity > 0);
}

/** Move what is packed, all or none; what is not packed stays on the list. */
export async function moveAll(list) {
  const moved = packed(list);
  await stateAll(moves(list.from, list.to, moved));
  const gone = new Set(moved.map(([product]) => product));
  const left = Object.entries(list.pieces).filter(([product, quantity]) => quantity > 0 && !gone.has(product));
  await keepPacking(left.length ? { ...list, pieces: Object.fromEntries(left), packed: {} } : null);
}

/** Take a move back: what was packed goes where it came from, and is on the list again. */
export async function moveBack(list) {
  await stateAll(moves(list.to, list.from, packed(list)));
  await keepPacking(list);
}

function moves(from, to, rows) {
  return rows.map(([product, quantity]) => ['move', { day: today(), from, to, product, quantity }]);
}
