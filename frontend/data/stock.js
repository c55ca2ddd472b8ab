/* Stock by place: kept folded from the log up to a number, what came later and own facts taken in on top
   of it when it is asked for, so that no exchange waits for the fold. */
import { call } from '../core/core-client.js';
import { isFact, keepTotals, loggedAfter, loggedByIds, ownChanges, recall, subscribe, total, wholeLog } from './store.js';

// a promise of what the log gave with own facts on top, from the first asking on
let shown = null;

/** What is where now, by place and product: [{place, product, size, quantity, counted_at}]. */
export async function stock() {
  return answerOf('list_stock', { held: await held() });
}

/** Sales that were voided: {id: true}. */
export async function voids() {
  return (await held()).voids;
}

/** What was at a place at a past time (UTC ms), in the shape of `stock`. */
export async function stockAt(at, place) {
  const facts = await neededFacts(place, at);
  return answerOf('list_stock', { held: await answerOf('fold_stock', { facts, at, places: [place] }) });
}

/** Facts that matter to a place's stock at a time (UTC ms), or to a count of it that was about then. */
export async function neededFacts(place, about, session = '') {
  const all = [...(await loggedFacts()), ...ownFacts()].filter((fact) => touches(fact, [place]));
  const counts = all.filter(isOfCount);
  const latest = new Set(counts.filter((fact) => fact.at > about - LATEST_COUNTS_MS).map((fact) => fact.session));
  const ask = (facts) => answerOf('needed_since', { facts, session, place, at: session ? null : about });
  const told = await ask(counts.filter((fact) => latest.has(fact.session)));
  const { since, sales, sessions } = told.since ? told : await ask(counts);
  const held = new Set(sales);
  const matter = new Set(sessions);
  return all.filter((fact) => (isOfCount(fact) ? matter.has(fact.session) : fact.kind === 'void' || fact.at >= since || held.has(fact.id)));
}

// a count of all of a place is seldom longer ago; where it is, all counts are looked at
const LATEST_COUNTS_MS = 30 * 24 * 3600 * 1000;
const isOfCount = ({ kind }) => kind === 'count-line' || kind === 'count-close';
const touches = (fact, places) => [fact.place, fact.from, fact.to].some((place) => places.includes(place)) || fact.kind === 'void';

/** Facts in the shape that the core folds: {kind, id, at, ...fields}. */
export function factsIn(changes) {
  return changes.filter(isFact).map(({ kind, id, at, fields }) => ({ ...fields, kind, id, at }));
}

/** Own facts that were not rejected. */
export function ownFacts() {
  return factsIn(ownChanges().filter((change) => !change.trouble));
}

/** Bring what is kept of the stock up to the log, if it is not. */
export async function catchUp() {
  // what the fold cannot take is told to who asks for stock
  if (recall('sync') && recall('sync').cursor !== kept().through) await held().catch(() => {});
}

function held() {
  shown ??= withOwn();
  return shown;
}

async function withOwn() {
  const own = ownFacts();
  return takenIn(await upToLog(recall('sync')), own, true);
}

// what is kept holds for the log up to the number `through`
function kept() {
  const { held = {}, through = 0 } = total('stock') ?? {};
  return through ? { held, through } : { held: {}, through };
}

// own facts, what is kept and how far the log goes are of one moment, though the log may grow meanwhile
async function upToLog(sync) {
  const { held, through } = kept();
  if (!sync || sync.cursor === through) return held;
  const facts = factsIn((await loggedAfter(through)).filter((change) => change.seq <= sync.cursor));
  const after = through ? await takenIn(held, facts, false) : await foldedAtFirst(facts);
  await keepTotals(sync, { stock: { held: after, through: sync.cursor } });
  return after;
}

// of a year the last weeks matter, what was counted then says the rest anew; but all that was ever there is named
async function foldedAtFirst(facts) {
  const since = Math.max(0, facts.reduce((last, { at }) => Math.max(last, at), 0) - LATEST_COUNTS_MS);
  const counts = facts.filter(isOfCount);
  const closed = new Set(counts.filter(({ kind }) => kind === 'count-close').map(countOf));
  const live = new Set(counts.filter(({ at }) => at >= since).map(countOf));
  const named = new Set();
  const matter = facts.filter((fact) => {
    const { kind, at, goods } = fact;
    const always = at >= since || kind === 'void' || kind === 'count-close' || (kind === 'count-line' && live.has(countOf(fact)));
    return always || namesMore(named, `${kind} ${goods} ${closed.has(countOf(fact))}`, fact);
  });
  const { refold, ...held } = await answerOf('fold_latest', { facts: matter, since });
  return refold.length ? foldedAgain(held, refold, facts, false) : held;
}

const countOf = ({ place, session }) => `${place} ${session}`;

// whether a fact names goods at a place as none before did, whatever it then says of them
function namesMore(named, how, fact) {
  const before = named.size;
  for (const list of ['', 'lines', 'returned']) {
    for (const { product, size } of list ? (fact[list] ?? []) : [fact]) {
      for (const place of [fact.place, fact.from, fact.to]) {
        if (place && (product || size)) named.add(`${how} ${list} ${place} ${product} ${size}`);
      }
    }
  }
  return named.size > before;
}

subscribe((made) => {
  if (made === null) shown = null;
  else if (shown && made.some(isFact)) shown = shown.then((before) => takenIn(before, factsIn(made), true));
  // what the fold cannot take is told to who asks for stock, and a fact is kept before it is folded
  shown?.catch(() => {
    shown = null;
  });
});

// ownToo: what was taken in before is own facts as well as the log's
async function takenIn(before, facts, ownToo) {
  if (!facts.length) return { ...EMPTY, ...before };
  const told = await answerOf('take_in_stock', { held: before, facts, sales: await voidedEarlier(facts, ownToo) });
  const after = join({ ...EMPTY, ...before }, told);
  return told.refold.length ? foldedAgain(after, told.refold, facts, ownToo) : after;
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
  const own = ownToo ? ownFacts().filter((fact) => named.includes(fact.id)) : [];
  const known = new Set(own.map((fact) => fact.id));
  return [...own, ...factsIn(await loggedByIds(named.filter((id) => !known.has(id))))];
}

async function foldedAgain(after, places, facts, ownToo) {
  const all = [...(await loggedFacts()), ...(ownToo ? ownFacts() : []), ...facts].filter((fact) => touches(fact, places));
  const told = await answerOf('fold_stock', { facts: all, at: null, places });
  const others = (part) => Object.fromEntries(Object.entries(part).filter(([key]) => !places.some((place) => key.startsWith(place))));
  return { ...join({ ...after, stock: others(after.stock) }, told), places: { ...others(after.places), ...told.places } };
}

async function loggedFacts() {
  return factsIn(await wholeLog());
}

async function answerOf(method, args) {
  const { answer, problems } = await call(method, args);
  if (problems) throw new Error(`${method}: ${JSON.stringify(problems.slice(0, 3))}`);
  return answer;
}
