/* Stock by place: kept folded from the log up to a number, what came later and own facts taken in on top
   of it when it is asked for, so that no exchange waits for the fold. */
import { ask } from './asking.js';
import { isFact, keepTotals, loggedAfter, loggedByIds, ownChanges, recall, remember, subscribe, total, wholeLog } from './store.js';

// a promise of what the log gave with own facts on top, from the first asking on; `fresh` are not yet in it
let shown = null;
let fresh = [];

/** What is where now, by place and product: [{place, product, size, quantity, counted_at}]. */
export async function stock() {
  return ask('list_stock', { held: await held() });
}

/** Sales that were voided: {id: true}. */
export async function voids() {
  return (await held()).voids;
}

/** What was at a place at a past time (UTC ms), in the shape of `stock`. */
export async function stockAt(at, place) {
  const facts = await neededFacts(place, at);
  return ask('list_stock', { held: await ask('fold_stock', { facts, at, places: [place] }) });
}

/** Facts that matter to a place's stock at a time (UTC ms), or to a count of it that was about then. */
export async function neededFacts(place, about, session = '') {
  return needed([...(await loggedFacts()), ...ownFacts()], place, about, session);
}

// about null: whatever the clocks say, nothing is left out as later
async function needed(facts, place, about, session = '') {
  const all = facts.filter((fact) => touches(fact, place));
  const counts = all.filter(isOfCount);
  const until = about ?? counts.reduce((last, fact) => Math.max(last, fact.at), 0);
  const lately = until - LATEST_COUNTS_MS;
  const latest = new Set(counts.filter((fact) => fact.at > lately).map((fact) => fact.session));
  const neededOf = (some) => ask('needed_since', { facts: some, session, place, at: session ? null : about });
  const told = await neededOf(counts.filter((fact) => latest.has(fact.session)));
  const { since, sales, sessions } = told.since > lately ? told : await neededOf(counts);
  const held = new Set(sales);
  const matter = new Set(sessions);
  return all.filter((fact) => (isOfCount(fact) ? matter.has(fact.session) : fact.kind === 'void' || fact.at >= since || held.has(fact.id)));
}

// a count of all of a place is seldom longer ago; where it is, all counts are looked at
const LATEST_COUNTS_MS = 30 * 24 * 3600 * 1000;
const isOfCount = ({ kind }) => kind === 'count-line' || kind === 'count-close';
const touches = (fact, place) => [fact.place, fact.from, fact.to].includes(place) || fact.kind === 'void';

/** Facts in the shape that the core folds: {kind, id, at, ...fields}. */
export function factsIn(changes) {
  return changes.filter(isFact).map(({ kind, id, at, fields }) => ({ ...fields, kind, id, at }));
}

/** Own facts that were not rejected. */
export const ownFacts = () => factsIn(statedHere());
const statedHere = () => ownChanges().filter((change) => isFact(change) && !change.trouble);

/** Bring what is kept of the stock up to the log, if it is not. */
export async function catchUp() {
  // what the fold cannot take is told to who asks for stock
  if (recall('sync') && recall('sync').cursor !== kept().through) await held().catch(() => {});
}

function held() {
  const facts = fresh;
  fresh = [];
  if (!shown) shown = withOwn();
  else if (facts.length) shown = shown.then((before) => takenIn(before, facts, true));
  const mine = shown;
  // what the fold cannot take is told to who asks for stock
  mine.catch(() => {
    if (shown === mine) shown = null;
  });
  return mine;
}

async function withOwn() {
  const [own, sync] = [statedHere(), recall('sync')];
  if (sync) return takenIn(await upToLog(sync), factsIn(own), true);
  const { held, count } = keptOfOwn(own);
  const after = await takenIn(held, factsIn(own.slice(count)), true);
  if (own.length - count >= WORTH_KEEPING) remember('own-stock', { held: after, count: own.length, last: own.at(-1).id });
  return after;
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
  const facts = factsIn((await loggedAfter(through)).filter((change) => change.seq <= sync.cursor));
  const after = await takenIn(held, facts, false);
  await keepTotals(sync, { stock: { held: after, through: sync.cursor } });
  return after;
}

// a fact is kept, and shown as kept, before it is folded
subscribe((made) => {
  if (made === null) shown = null;
  if (shown) fresh.push(...factsIn(made));
  else fresh = [];
});

// ownToo: what was taken in before is own facts as well as the log's
async function takenIn(before, facts, ownToo) {
  if (!facts.length) return { ...EMPTY, ...before };
  const all = async () => (before.stock ? [...(await loggedFacts()), ...(ownToo ? ownFacts() : []), ...facts] : facts);
  // so many at once are more for the core than all that matters
  if (!before.stock || facts.length > MOST_AT_ONCE) return foldedAgain(EMPTY, null, await all());
  const told = await ask('take_in_stock', { held: before, facts, sales: await voidedEarlier(facts, ownToo) });
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

// the sales that these voids name, if they came before them
async function voidedEarlier(facts, ownToo) {
  const here = new Set(facts.map((fact) => fact.id));
  const named = facts.filter((fact) => fact.kind === 'void' && !here.has(fact.sale)).map((fact) => fact.sale);
  if (!named.length) return [];
  const own = ownToo ? ownFacts().filter((fact) => named.includes(fact.id)) : [];
  const known = new Set(own.map((fact) => fact.id));
  return [...own, ...factsIn(await loggedByIds(named.filter((id) => !known.has(id))))];
}

// some places anew, or with null all; of what was there before its last count of all nothing is told, as it is none
async function foldedAgain(before, places, facts) {
  const each = [...new Map(facts.map((fact) => [fact.id, fact])).values()];
  // a void may come before its sale, and is at no place
  const voided = each.filter(({ kind }) => kind === 'void');
  let after = join(before, await ask('fold_stock', { facts: voided, at: null, places: [] }));
  for (const place of places ?? placesOf(each)) {
    const held = await foldedPlace(place, each);
    const here = (part, wanted) => Object.fromEntries(Object.entries(part).filter(([key]) => key.startsWith(place) === wanted));
    const stockHere = { ...here(after.stock, false), ...here(held.stock, true) };
    after = { ...join(after, held), stock: stockHere, places: { ...here(after.places, false), ...held.places } };
  }
  return after;
}

// counts and voids first, as they say what of the rest counts; a part at a time, as taps are answered in between
async function foldedPlace(place, facts) {
  const matter = await needed(facts, place, null);
  const isFirst = (fact) => isOfCount(fact) || fact.kind === 'void';
  let held = await ask('fold_stock', { facts: matter.filter(isFirst), at: null, places: [place] });
  const rest = matter.filter((fact) => !isFirst(fact));
  for (let done = 0; done < rest.length; done += MOST_AT_ONCE) {
    const part = rest.slice(done, done + MOST_AT_ONCE);
    held = join(held, await ask('take_in_stock', { held, facts: part, sales: [] }));
  }
  // a line may still come to a count of long ago
  const closes = facts.filter((fact) => fact.kind === 'count-close' && fact.place === place);
  const { closed } = await ask('fold_stock', { facts: closes, at: null, places: [] });
  return { ...held, closed };
}

const MOST_AT_ONCE = 1000;
const placesOf = (facts) => [...new Set(facts.flatMap(({ place, from, to }) => [place, from, to]))].filter(Boolean);

async function loggedFacts() {
  return factsIn(await wholeLog());
}
