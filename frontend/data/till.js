/* The till: where it stands, what is in the basket, what that comes to, and the sale that is made of it. */
import { call, foresee } from '../core/core-client.js';
import { checkOf, state, stateAll } from './actions.js';
import { kindsVoiding } from './asking.js';
import { newId, today } from './clock.js';
import { nameOf } from './naming.js';
import { isHelper, recordById, records } from './records.js';
import { ownChange } from './store/own-changes.js';
import { recall, remember } from './store/remembered.js';

// tiles that do not cost alike; the rest are asked for when they are tapped
const LIKELY_TILES = 12;
const EMPTY = { id: null, lines: [], returned: [], refused: [], off: 0, reason: '' };

// the stall that is looked at: it stays open past midnight, and its sales are of the day it was opened
let shown = null;
document.addEventListener('visibilitychange', () => {
  // what is looked at again on another day is asked anew
  if (!document.hidden) shown = null;
});

/** Where this phone sells today: {day, booking, place, box}; null until a stall is opened. */
export function stall() {
  const open = recall('stall');
  const isShown = shown !== null && open?.day === shown.day && open.booking === shown.booking;
  shown = isShown || open?.day === today() ? open : null;
  return shown;
}

/** The day that is sold on: that of the open stall, else today. */
export const sellingDay = () => stall()?.day ?? today();

/** Open a stall for today. */
export const openStall = (where) => remember('stall', { ...where, day: today() });
export const closeStall = () => remember('stall', null);

/** Bookings that are today. */
export function bookingsToday() {
  return records('booking').filter((booking) => booking.days?.includes(today()));
}

/** Where the stock of a booking stands: where it says, or its market; null where neither does. */
export const placeOf = (booking) => booking?.place ?? recordById('market', booking?.market)?.place ?? null;

/** The place where this phone sells today, as far as it is known. */
export const todaysPlace = () => stall()?.place ?? placeOf(bookingsToday()[0]);

/** Say what was in a box at the start; where is {day, booking, box}. */
export const keepFloat = (where, amount) => state('cash-count', { ...where, moment: 'float', amount });

/** What can be sold: {key, name, short (beside its size), price, group, product or size, inSize, inCloth}; what this phone sold most first, in one order all day. */
export function goods() {
  const products = records('product').filter((product) => product.active);
  const tiles = products.map((product) => ({
    key: product.id,
    product: product.id,
    name: nameOf('product', product),
    short: product.name || nameOf('cloth', recordById('cloth', product.cloth)) || nameOf('product', product),
    inSize: product.size,
    inCloth: product.cloth,
    price: product.price,
    group: product.group,
  }));
  return inOrderOfDay([...tiles, ...sizesAlone(products)]);
}

/** Why nothing can be sold: "none", "archived", or "not offered". */
export function whyNothing() {
  if (!records('product', true).length) return 'none';
  return records('product').length ? 'not offered' : 'archived';
}

// what is new on a day comes last
function inOrderOfDay(tiles) {
  const sold = recall('sold', {});
  const byName = (a, b) => a.name.localeCompare(b.name);
  if (recall('tiles')?.day !== sellingDay()) {
    const keys = [...tiles].sort((a, b) => (sold[b.key] ?? 0) - (sold[a.key] ?? 0) || byName(a, b)).map(({ key }) => key);
    remember('tiles', { day: sellingDay(), keys });
  }
  const place = new Map(recall('tiles').keys.map((key, index) => [key, index]));
  const placeOfTile = ({ key }) => place.get(key) ?? place.size;
  return tiles.sort((a, b) => placeOfTile(a) - placeOfTile(b) || byName(a, b));
}

// a size whose cloth nobody needs to say: where all its products are alike in price
function sizesAlone(products) {
  const sizes = [...new Set(products.map((product) => product.size))];
  return sizes.flatMap((size) => {
    const [first, ...others] = products.filter((product) => product.size === size);
    if (!others.length || others.some(({ price, group }) => price !== first.price || group !== first.group)) return [];
    const name = `${nameOf('piece', recordById('piece', size))}, cloth not named`;
    return [{ key: size, size, name, short: 'Cloth not named', inSize: size, inCloth: null, price: first.price, group: first.group }];
  });
}

/** The basket as it was left: {lines, returned, refused (offers taken off), off, reason}. */
export const basket = () => recall('basket', EMPTY);
export const keepBasket = (next) => next === basket() || remember('basket', next);
export const emptyBasket = () => EMPTY;

/** Whether a basket was sold already, in this window or another: a sale has its basket's id. */
export const isSold = ({ id }) => id !== null && ownChange(id) !== undefined;

/** A basket with some pieces of one thing more or fewer. */
export function withPieces(before, thing, more, list = 'lines') {
  const found = before[list].find((line) => line.key === thing.key);
  const quantity = (found?.quantity ?? 0) + more;
  const others = before[list].filter((line) => line.key !== thing.key);
  const line = { off: 0, reason: '', ...thing, ...found, quantity };
  const lines = found ? before[list].map((old) => (old.key === thing.key ? line : old)) : [...others, line];
  return { ...before, id: before.id ?? newId(), [list]: lines.filter((kept) => kept.quantity > 0) };
}

/** A basket with one more line, of what is no product. */
export function withOther(before, price, name) {
  const line = { key: newId(), name: name || 'Other item', price, group: null, quantity: 1, off: 0, reason: '' };
  return { ...before, id: before.id ?? newId(), lines: [...before.lines, line] };
}

/** A basket with what was in another one laid back into it. */
export function laidBack(now, { lines, returned, refused, off, reason }) {
  if (!now.lines.length && !now.returned.length) return { id: newId(), lines, returned, refused, off, reason };
  const both = lines.reduce((made, line) => withPieces(made, line, line.quantity), now);
  return returned.reduce((made, line) => withPieces(made, line, line.quantity, 'returned'), both);
}

/** A basket without what was just sold of it: a tap may have come meanwhile. */
export function withoutSold(now, sold) {
  if (now === sold) return EMPTY;
  const left = (list) =>
    now[list]
      .map((line) => ({ ...line, quantity: line.quantity - (sold[list].find(({ key }) => key === line.key)?.quantity ?? 0) }))
      .filter((line) => line.quantity > 0);
  return { ...EMPTY, id: newId(), lines: left('lines'), returned: left('returned') };
}

/** What a basket comes to: {total, before, saving, lines, uses, due, cash: {due, ways}, incomplete, full, back, returned};
    null for an empty one. `incomplete`: offers that do not say what they give, which are not used; `full`: the others
    cannot be used together, so none is; `back`: what comes back
    is worth; `due`: what is paid, below nothing what is given back. Throws where the core takes no such basket, as one of over 200 pieces. */
export async function priced(made) {
  if (!made.lines.length) return null;
  const { answer, problems } = await call(...priceOf(made));
  if (problems) throw new Error('That is too much for one basket: sell this first');
  const offers = offersFor(made);
  const uses = answer.uses.map((use) => ({ ...use, id: offers[use.offer].id }));
  return { ...answer, uses, incomplete: answer.incomplete.map((row) => offers[row]) };
}

// what the core is asked for it
function priceOf(made) {
  const { cash_rounding = 1, denominations = [] } = records('business')[0] ?? {};
  return [
    'price',
    {
      basket: { lines: made.lines.map(asLine), offers: offersFor(made).map(asOffer), basket_off: made.off },
      returned: made.returned.map(asLine),
      cash_rounding,
      denominations: denominations.map(({ value }) => value),
    },
  ];
}

const offersFor = ({ refused }) => records('offer').filter((offer) => offer.active && !refused.includes(offer.id));

/** Have the core work out what is likely to be tapped next: to pay, or one more of what is sold most. */
export function foreseeTaps(where, made, price, tiles) {
  const ways = price?.due > 0 ? [...price.cash.ways.map(({ tendered }) => ['cash', tendered]), ['card', null]] : [];
  foresee([
    ...ways.map(([payment, tendered]) => checkOf('sale', saleOf(where, made, price, payment, tendered), true)),
    ...unlike(tiles, made)
      .slice(0, LIKELY_TILES)
      .map((thing) => priceOf(withPieces(made, thing, 1))),
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

/** Keep a sale, and the basket as empty; resolves to {id, amount, refund} once that is on the disk: refund is the
    id of the money given back in a swap. A basket is sold once, in whichever window: its sale has its id. */
export async function sell(where, made, price, payment, tendered = null) {
  const facts = factsOfBasket(where, made, price, payment, tendered);
  try {
    const [id, refund] = await stateAll(facts, { basket: EMPTY, sold: withSold(made.lines) });
    return { id, refund, amount: facts.at(-1)[1].amount };
  } catch (error) {
    if (error.cause?.name === 'ConstraintError') throw new Error('This basket was paid in another window');
    throw error;
  }
}

// a swap in which money goes back is a sale for nothing, and a refund of what came back
function factsOfBasket(where, made, price, payment, tendered) {
  if (price.due >= 0) return [['sale', saleOf(where, made, price, payment, tendered), made.id ?? undefined]];
  const { booking, place, box, day } = where;
  const lines = made.returned.map((line, index) => ({ ...goodsOf(line), name: '', quantity: line.quantity, total: price.returned[index] }));
  const amount = payment === 'cash' ? price.cash.due : -price.due;
  const back = { day, booking, place, box: payment === 'cash' ? box : null, lines, amount, payment, goods: 'table', reason: 'swapped' };
  return [
    ['sale', saleOf(where, { ...made, returned: [] }, price, 'none', null), made.id ?? undefined],
    ['refund', back],
  ];
}

function saleOf({ booking, place, box, day }, { lines, returned, off, reason }, price, payment, tendered) {
  // what comes back pays for what the offers leave
  const swap = payment === 'none' || returned.length > 0;
  return {
    booking,
    place,
    box: payment === 'cash' ? box : null,
    day,
    lines: lines.map((line, index) => soldLine(line, price.lines[index].total)),
    returned: returned.map((line) => ({ ...goodsOf(line), quantity: line.quantity })),
    offers: swap ? [] : price.uses.map(({ id: offer, times, saving }) => ({ offer, times, saving })),
    off: swap ? 0 : off,
    reason: swap ? reason || 'swapped' : reason,
    payment,
    tendered,
    amount: { none: 0, cash: price.cash.due }[payment] ?? price.due,
  };
}

const goodsOf = ({ product = null, size = null }) => ({ product, size });

function soldLine({ product = null, size = null, name, price, quantity, reason }, total) {
  return { product, size, name: product || size ? '' : name, quantity, unit_price: price, total, reason };
}

// tiles stay where they are while the stall is open: the order changes the next time
function withSold(lines) {
  const sold = { ...recall('sold', {}) };
  lines.forEach(({ key, quantity }) => {
    sold[key] = (sold[key] ?? 0) + quantity;
  });
  return sold;
}

/** Say of a fact that it never happened: of a sale, a refund, what was set aside or asked for. */
export function takeBack(name, id, reason = 'undone at once') {
  const [voiding] = kindsVoiding(name);
  return state(voiding.name, { day: today(), [voiding.voids]: id, reason });
}

/** Say that a sale, and what was given back in its swap, never happened. */
export const undo = (sale, refund = null) => Promise.all([takeBack('sale', sale), refund && takeBack('refund', refund)]);

/** Record a sale or a refund of today again that was voided by mistake. */
export function stateAgain({ id, kind, at, never, ...fields }) {
  return state(kind, fields);
}

/** What goes back for pieces of each line of a sale, null for all that is left: {lines, amount, left, left_amount}. */
export async function refundOf({ lines, amount }, back, refunds) {
  const given = refunds.map((refund) => ({ lines: refund.lines.map(lineOf), amount: refund.amount }));
  return (await call('refund_of', { lines: lines.map(lineOf), back, amount, refunds: given })).answer;
}

const lineOf = ({ product = null, size = null, name = '', quantity, total }) => ({ product, size, name, quantity, total });

/** Whether this phone's role may give money back for goods whose sale is not named. */
export const mayGiveBack = () => !isHelper();

/** Give money back for a sale, or for goods whose sale is not known (`sale` null); resolves to the fact's id. `out` is the cash box
    that it comes out of where nothing else says. */
export function refund(sale, { lines, amount }, payment, goods, out = null) {
  // goods and money change hands where the stall stands now, whichever market it was sold at
  const { booking, place, box } = stall() ?? { ...sale, box: sale.box ?? out };
  return state('refund', {
    day: sellingDay(),
    sale: sale?.id ?? null,
    booking,
    place,
    box: payment === 'cash' ? box : null,
    lines,
    amount,
    payment,
    goods,
  });
}
