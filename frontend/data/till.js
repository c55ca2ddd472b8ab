/* The till: where it stands, what is in the basket, what that comes to, and the sale that is made of it. */
import { call, foresee } from '../core/core-client.js';
import { checkOf, state } from './actions.js';
import { today } from './clock.js';
import { nameOf } from './naming.js';
import { recordById, records } from './records.js';
import { recall, remember } from './store.js';

// tiles that do not cost alike; the rest are asked for when they are tapped
const LIKELY_TILES = 12;
const EMPTY = { lines: [], returned: [], refused: [], off: 0, reason: '' };

/** Where this phone sells today: {day, booking, place, box}; null until a stall is opened. */
export function stall() {
  const open = recall('stall');
  return open?.day === today() ? open : null;
}

/** Open a stall for today. */
export const openStall = (where) => remember('stall', { ...where, day: today() });
export const closeStall = () => remember('stall', null);

/** Bookings that are today. */
export function bookingsToday() {
  return records('booking').filter((booking) => booking.days.includes(today()));
}

/** Where the stock of a booking stands: where it says, or its market; null where neither does. */
export const placeOf = (booking) => booking?.place ?? recordById('market', booking?.market)?.place ?? null;

/** Say what was in a box at the start; where is {day, booking, box}. */
export const keepFloat = (where, amount) => state('cash-count', { ...where, moment: 'float', amount });

/** What can be sold, most sold on this phone first: {key, name, price, group, product or size}. */
export function goods() {
  const sold = recall('sold', {});
  const products = records('product').filter((product) => product.active);
  const tiles = products.map((product) => ({
    key: product.id, product: product.id, name: nameOf('product', product), price: product.price, group: product.group,
  }));
  return [...tiles, ...sizesAlone(products)].sort((a, b) => (sold[b.key] ?? 0) - (sold[a.key] ?? 0) || a.name.localeCompare(b.name));
}

// a size whose cloth nobody needs to say: where all its products are alike in price
function sizesAlone(products) {
  const sizes = [...new Set(products.map((product) => product.size))];
  return sizes.flatMap((size) => {
    const [first, ...others] = products.filter((product) => product.size === size);
    if (!others.length || others.some(({ price, group }) => price !== first.price || group !== first.group)) return [];
    const name = `${nameOf('piece', recordById('piece', size))}, any cloth`;
    return [{ key: size, size, name, price: first.price, group: first.group }];
  });
}

/** The basket as it was left: {lines, returned, refused (offers taken off), off, reason}. */
export const basket = () => recall('basket', EMPTY);
export const keepBasket = (next) => next === basket() || remember('basket', next);
export const emptyBasket = () => EMPTY;

/** A basket with some pieces of one thing more or fewer. */
export function withPieces(before, thing, more, list = 'lines') {
  const found = before[list].find((line) => line.key === thing.key);
  const quantity = (found?.quantity ?? 0) + more;
  const others = before[list].filter((line) => line.key !== thing.key);
  const line = { off: 0, reason: '', ...thing, ...found, quantity };
  const lines = found ? before[list].map((old) => (old.key === thing.key ? line : old)) : [...others, line];
  return { ...before, [list]: lines.filter((kept) => kept.quantity > 0) };
}

/** A basket without what was just sold of it: a tap may have come meanwhile. */
export function withoutSold(now, sold) {
  if (now === sold) return EMPTY;
  const left = (list) => now[list]
    .map((line) => ({ ...line, quantity: line.quantity - (sold[list].find(({ key }) => key === line.key)?.quantity ?? 0) }))
    .filter((line) => line.quantity > 0);
  return { ...EMPTY, lines: left('lines'), returned: left('returned') };
}

/** What a basket comes to: {total, before, saving, lines, uses, cash: {due, ways}, full, back}; null
    for an empty one. `full`: the offers cannot be used together, so none is; `back`: what comes
    back is worth. Throws where the core takes no such basket, as one of over 200 pieces. */
export async function priced(made) {
  if (!made.lines.length) return null;
  const { answer, problems } = await call(...priceOf(made));
  if (problems) throw new Error('That is too much for one basket: sell this first');
  const offers = offersFor(made);
  return { ...answer, uses: answer.uses.map((use) => ({ ...use, id: offers[use.offer].id })) };
}

// what the core is asked for it
function priceOf(made) {
  const { cash_rounding = 1, denominations = [] } = records('business')[0] ?? {};
  return ['price', {
    basket: { lines: made.lines.map(asLine), offers: offersFor(made).map(asOffer), basket_off: made.off },
    returned: made.returned.map(asLine), cash_rounding, denominations: denominations.map(({ value }) => value),
  }];
}

const offersFor = ({ refused }) => records('offer').filter((offer) => offer.active && !refused.includes(offer.id));

/** Have the core work out what is likely to be tapped next: to pay, or one more of what is sold most. */
export function foreseeTaps(where, made, price, tiles) {
  const ways = price ? [...price.cash.ways.map(({ tendered }) => ['cash', tendered]), ['card', null]] : [];
  foresee([
    ...ways.map(([payment, tendered]) => checkOf('sale', saleOf(where, made, price, payment, tendered), true)),
    ...unlike(tiles, made).slice(0, LIKELY_TILES).map((thing) => priceOf(withPieces(made, thing, 1))),
  ]);
}

// of tiles that are new to the basket and cost alike only one: the core is asked the same for them
function unlike(tiles, { lines }) {
  const held = new Set(lines.map(({ key }) => key));
  const costs = ({ key, group, price }) => (held.has(key) ? key : JSON.stringify([group, price]));
  const found = new Map();
  for (const thing of tiles) if (!found.has(costs(thing))) found.set(costs(thing), thing);
  return [...found.values()];
}

/** Foresee no more taps: the stall is left. */
export const foreseeNothing = () => foresee([]);

// by its number: what it is does not change what it costs
function asLine({ group, price, quantity, off }, number) {
  return { product: `${number + 1}`, group: group ?? null, unit_price: price, quantity, off };
}

function asOffer({ name, groups, n, price, percent }) {
  return { name, groups, n, price, percent };
}

/** Keep a sale, and the basket as empty; resolves to {id, amount} once that is on the disk. */
export async function sell(where, made, price, payment, tendered = null) {
  const sale = saleOf(where, made, price, payment, tendered);
  const id = await state('sale', sale, { basket: EMPTY, sold: withSold(made.lines) });
  return { id, amount: sale.amount };
}

function saleOf({ booking, place, box, day }, { lines, returned, off, reason }, price, payment, tendered) {
  const swap = payment === 'none';
  return {
    booking, place, box: payment === 'cash' ? box : null, day,
    lines: lines.map((line, index) => soldLine(line, swap ? 0 : price.lines[index].total)),
    returned: returned.map(({ product = null, size = null, quantity }) => ({ product, size, quantity })),
    offers: swap ? [] : price.uses.map(({ id: offer, times, saving }) => ({ offer, times, saving })),
    off: swap ? 0 : off, reason, payment, tendered,
    amount: { none: 0, cash: price.cash.due }[payment] ?? price.total,
  };
}

function soldLine({ product = null, size = null, name, price, quantity, reason }, total) {
  return { product, size, name: product || size ? '' : name, quantity, unit_price: price, total, reason };
}

// tiles stay where they are while the stall is open: the order changes the next time
function withSold(lines) {
  const sold = { ...recall('sold', {}) };
  lines.forEach(({ key, quantity }) => { sold[key] = (sold[key] ?? 0) + quantity; });
  return sold;
}

/** Say that a sale never happened. */
export const undo = (sale, reason = '') => state('void', { day: today(), sale, reason });

/** What goes back for so many pieces of each line of a sale: {lines, amount}. */
export async function refundOf({ lines, amount }, back) {
  const told = lines.map(({ product, size, name, quantity, total }) => ({ product, size, name, quantity, total }));
  return (await call('refund_of', { lines: told, back, amount })).answer;
}

/** Give money back for a sale. */
export function refund(sale, { lines, amount }, goods) {
  // goods and money change hands where the stall stands now, whichever market it was sold at
  const { booking, place, box } = stall() ?? sale;
  const { id, payment } = sale;
  return state('refund', { day: today(), sale: id, booking, place, box: payment === 'cash' ? box : null, lines, amount, payment, goods });
}
