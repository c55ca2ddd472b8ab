/* Stock by place: kept folded from the log up to a number, what came later and own facts taken in on top
   of it when it is asked for, so that no exchange waits for the fold. */
import { ask } from './asking.js';
import { declared, kindNamed } from './calculating.js';
import { asFact, readOn } from './readable.js';
import { subscribe } from './store/following.js';
import { isFact } from './store/is-fact.js';
import { loggedAfter, loggedByIds, wholeLog } from './store/log.js';
import { ownChanges } from './store/own-changes.js';
import { keepTotals, total } from './store/pulled.js';
import { recall, remember } from './store/remembered.js';

// a promise of what the log gave with own facts on top, from the first asking on; `fresh` are not yet in it
let shown = null;
let fresh = [];

/** What is where now, by place and product: [{place, product, size, quantity, counted_at}]. */
export async function stock() {
  return ask('list_stock', { held: await held() });
}

/** Pieces of each product, or size alone, at a place, now or at a past time (UTC ms): {has(id), get(id)}; null where
    nobody knows how many. */
export async function piecesAt(place, at = null) {
  const { pieces, others } = await ask('pieces_at', { held: at === null ? await held() : await heldThen(at, place), place });
  return { get: (id) => (id in pieces ? pieces[id] : others), has: (id) => id in pieces };
}

/** What never happened, of what moves stock or cash: {id: true}. */
export async function voids() {
  return (await held()).voids;
}

/** What was at a place at a past time (UTC ms), in the shape of `stock`. */
export async function stockAt(at, place) {
  return ask('list_stock', { held: await heldThen(at, place) });
}

const heldThen = async (at, place) => ask('fold_stock', { facts: await neededFacts(place, at), at, places: [place] });

/** Facts that matter to a place's stock at a time (UTC ms), or to a count of it that was about then. */
export async function neededFacts(place, about, session = '') {
  return needed(await withOwnFacts(loggedFacts()), place, about, session);
}

// about null: whatever the clocks say, nothing is left out as later
async function needed(facts, place, about, session = '') {
  const out = leftOut(facts);
  const all = facts.filter((fact) => touches(fact, place) && !out.has(fact.id));
  const counts = all.filter(isOfCount);
  const until = about ?? counts.reduce((last, fact) => Math.max(last, fact.at), 0);
  const lately = until - declared().latest_counts_ms;
  const latest = new Set(counts.filter((fact) => fact.at > lately).map((fact) => fact.session));
  const neededOf = (some) => ask('needed_since', { facts: some, session, place, at: session ? null : about });
  const told = await neededOf(counts.filter((fact) => latest.has(fact.session)));
  const { since, sales, sessions } = told.since > lately ? told : await neededOf(counts);
  const held = new Set(sales);
  const matter = new Set(sessions);
  return all.filter((fact) => (isOfCount(fact) ? matter.has(fact.session) : neverWas(fact) || fact.at >= since || held.has(fact.id)));
}

// what a kind says it does to the stock
const placesOf = (fact) => kindNamed(fact.kind)?.stock_at?.map((name) => fact[name]) ?? [];
const countsAs = ({ kind }) => kindNamed(kind)?.counts;
const isOfCount = (fact) => countsAs(fact) === 'goods' || countsAs(fact) === 'close';
const isOfStock = (name) => kindNamed(name)?.stock_at?.length > 0;
const touches = (fact, place) => placesOf(fact).includes(place) || neverWas(fact) !== undefined;

// the id of what moved stock or cash and never happened, where a fact says so; what an owner leaves out may be of any kind
function neverWas(fact) {
  const kind = kindNamed(fact.kind);
  if (!kind?.voids) return undefined;
  const links = voidedBy(kind);
  return isOfStock(links) || kindNamed(links)?.cash || !kindNamed(links) ? fact[kind.voids] : undefined;
}

const voidedBy = (kind) => kind.fields.find(({ name }) => name === kind.voids).links;

// a count that an owner left out says nothing of what came before it
function leftOut(facts) {
  const leaves = ({ kind }) => kindNamed(kind)?.voids && !kindNamed(voidedBy(kindNamed(kind)));
  return new Set(facts.filter(leaves).map(neverWas));
}

/** Own facts that were not rejected: all were checked as they were stated. */
export const ownFacts = () => asFacts(statedHere());

/** Pulled facts that are being read and own ones that `isOf` says, each once. Those of before count, too: an exchange may take
    them out of the outbox and into the log while that is read. */
export async function withOwnFacts(reading, isOf = () => true) {
  const before = ownFacts();
  const pulled = await reading;
  const own = [...before, ...ownFacts()].filter(isOf);
  return [...new Map([...pulled, ...own].map((fact) => [fact.id, fact])).values()];
}

// the core sets aside what its fold cannot read: of goods it may well know, though not of their money
const asFacts = (changes) => changes.filter(isFact).map(asFact);
const statedHere = () => ownChanges().filter((change) => isFact(change) && !change.trouble);

/** Bring what is kept of the log, what of it can be read and the stock, up to it if it is not. */
export async function catchUp() {
  const sync = recall('sync');
  if (!sync) return;
  // what goes wrong is told to who asks for stock
  if (sync.cursor !== kept().through) await held().catch(() => {});
  // a version that reads more than the one before folds anew
  if (await readOn(sync)) {
    await keepTotals(sync, { stock: { held: {}, through: 0 } });
    shown = null;
  }
}

function held() {
  const facts = fresh;
  fresh = [];
  if (!shown) shown = withOwn();
  else if (facts.length) shown = shown.then((before) => takenIn(before, facts, true));
  const mine = shown;
  // what goes wrong is told to who asks for stock
  mine.catch(() => {
    if (shown === mine) shown = null;
  });
  return mine;
}

async function withOwn() {
  const [own, sync] = [statedHere(), recall('sync')];
  if (sync) return takenIn(await upToLog(sync), asFacts(own), true);
  const { held, count } = keptOfOwn(own);
  const after = await takenIn(held, asFacts(own.slice(count)), true);
  if (own.length - count >= WORTH_KEEPING) remember('own-stock', { held: after, count: own.length, last: own.at(-1).id });
  return after;
}

/** What the store remembers of the stock of own facts alone, so that the first screen need not fold them:
    changes are facts, oldest first. */
export async function stockOfOwn(changes) {
  return { held: await foldedAgain(EMPTY, null, asFacts(changes)), count: changes.length, last: changes.at(-1).id };
}

// a phone that was never paired has all facts in its outbox, and need not fold them again at each start
function keptOfOwn(own) {
  const { held, count, last } = recall('own-stock', { count: 0 });
  return count && own[count - 1]?.id === last ? { held, count } : { held: {}, count: 0 };
}

const WORTH_KEEPING = 50;

// what is kept holds for the log up to the number `through`
function kept() {
  const { held = {}, through = 0 } = total('stock') ?? {};
  return through ? { held, through } : { held: {}, through };
}

// own facts, what is kept and how far the log goes are of one moment, though the log may grow meanwhile
async function upToLog(sync) {
  const { held, through } = kept();
  if (!sync.cursor || sync.cursor === through) return held;
  const facts = asFacts((await loggedAfter(through)).filter((change) => change.seq <= sync.cursor));
  const after = await takenIn(held, facts, false);
  await keepTotals(sync, { stock: { held: after, through: sync.cursor } });
  return after;
}

// a fact is kept, and shown as kept, before it is folded
subscribe((made) => {
  if (made === null) shown = null;
  if (shown) fresh.push(...asFacts(made));
  else fresh = [];
});

// ownToo: what was taken in before is own facts as well as the log's
async function takenIn(before, facts, ownToo) {
  if (!facts.length) return { ...EMPTY, ...before };
  const all = async () => (before.stock ? [...(await loggedFacts()), ...(ownToo ? ownFacts() : []), ...facts] : facts);
  // so many at once are more for the core than all that matters
  if (!before.stock || facts.length > MOST_AT_ONCE) return foldedAgain(EMPTY, null, await all());
  const told = await ask('take_in_stock', { held: before, facts, sales: await voidedEarlier(facts, ownToo) });
  // what an owner left out may have been taken in before, whatever it was
  if (told.anew) return foldedAgain(EMPTY, null, await all());
  const after = join(before, told);
  return told.refold.length ? foldedAgain(after, told.refold, await all()) : after;
}

const EMPTY = { stock: {}, places: {}, voids: {}, closed: {} };

function join(before, { stock: moved, voids: voided, closed }) {
  return {
    ...before,
    stock: { ...before.stock, ...moved },
    voids: { ...before.voids, ...voided },
    closed: { ...before.closed, ...closed },
  };
}

// what these say never happened, if it came before them
async function voidedEarlier(facts, ownToo) {
  const here = new Set(facts.map((fact) => fact.id));
  const named = facts.map(neverWas).filter((id) => id && !here.has(id));
  if (!named.length) return [];
  const own = ownToo ? ownFacts().filter((fact) => named.includes(fact.id)) : [];
  const known = new Set(own.map((fact) => fact.id));
  return [...own, ...asFacts(await loggedByIds(named.filter((id) => !known.has(id))))];
}

// some places anew, or with null all; of what was there before its last count of all nothing is told, as it is none
async function foldedAgain(before, places, facts) {
  const each = [...new Map(facts.map((fact) => [fact.id, fact])).values()];
  // what never happened may be known before it is, and is at no place
  const { voids } = await ask('fold_stock', { facts: each.filter(neverWas), at: null, places: [] });
  const folded = { stock: {}, places: {}, voids, closed: {} };
  const few = [];
  for (const [place, there] of byPlace(each, voids, places)) {
    if (there.length > FEW) laidIn(folded, await foldedPlace(place, there, voids));
    else few.push([place, there]);
  }
  for (const some of parcels(few)) laidIn(folded, await foldedPlaces(some, voids));
  return places ? ask('put_places', { held: before, places, folded }) : folded;
}

// what of it happened at each of some places, or with null at any: each fact is looked at once, however many places there are
function byPlace(facts, voids, places) {
  const wanted = places ? new Set(places) : null;
  const found = new Map();
  for (const fact of facts.filter(({ id }) => (voids[id] ?? true) === true)) {
    for (const place of new Set(placesOf(fact))) {
      if (!(wanted ? wanted.has(place) : isId(place))) continue;
      if (!found.has(place)) found.set(place, []);
      found.get(place).push(fact);
    }
  }
  return found;
}

// what a bent fact says of where is no place
const isId = (value) => typeof value === 'string' && /^[\da-f-]{36}$/.test(value);

function laidIn(folded, told) {
  for (const part of Object.keys(folded)) Object.assign(folded[part], told[part]);
}

// places of which so little is known are folded together: there may be any number of them
const FEW = 100;

function* parcels(few) {
  let [some, count] = [[], 0];
  for (const one of few) {
    some.push(one);
    count += one[1].length;
    if (count < MOST_AT_ONCE) continue;
    yield some;
    [some, count] = [[], 0];
  }
  if (some.length) yield some;
}

async function foldedPlaces(some, voids) {
  const facts = [...new Set(some.flatMap(([, there]) => there))];
  return ask('fold_places', { facts, voids: voidsOf(facts, voids), places: some.map(([place]) => place) });
}

const voidsOf = (facts, voids) => Object.fromEntries(facts.filter(({ id }) => id in voids).map(({ id }) => [id, voids[id]]));

// a part at a time, as taps are answered in between
async function foldedPlace(place, there, voids) {
  const matter = await needed(there, place, null);
  const closes = there.filter((fact) => countsAs(fact) === 'close');
  let held = await ask('begin_place', { facts: matter.filter(isOfCount), closes, voids: voidsOf(there, voids), place });
  const rest = matter.filter((fact) => !isOfCount(fact));
  for (let done = 0; done < rest.length; done += MOST_AT_ONCE) {
    const part = rest.slice(done, done + MOST_AT_ONCE);
    held = join(held, await ask('take_in_stock', { held, facts: part, sales: [] }));
  }
  return ask('put_places', { held: {}, places: [place], folded: held });
}

const MOST_AT_ONCE = 1000;

async function loggedFacts() {
  return asFacts(await wholeLog());
}
