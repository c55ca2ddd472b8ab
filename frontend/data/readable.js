// @ts-check
/* Facts that this version of the app can read. What it cannot, as a later version made it or as it is bent, is
   set aside before anything is made of it; up to which number of the log that is known is kept. */
import { ask } from './asking.js';
import { isFact } from './store/is-fact.js';
import { loggedAfter } from './store/log.js';
import { keepTotals, total } from './store/pulled.js';

const AT_ONCE = 250;
// so many of them are kept as known by then
const KEPT_AT_ONCE = 1000;
const version = document.documentElement.dataset.version;

/** What is known of the log up to its number `through`: of each fact set aside {kind, at, phone, fields}, by its id.
    @returns {{through: number, aside: Record<string, Aside>}} */
function known() {
  const { held, through = 0 } = total('aside') ?? {};
  return held?.version === version ? { through, aside: held.aside } : { through: 0, aside: {} };
}

/** Pulled changes as facts that can be read, in the shape that the core folds: {kind, id, at, ...fields}.
    @param {LoggedChange[]} changes */
export async function factsIn(changes) {
  const { through } = known();
  await lookAt(changes.filter((change) => change.seq > through));
  // it may be known by now as far as that
  const { aside } = known();
  return changes.filter((change) => isFact(change) && !aside[change.id] && !looked.get(change.id)).map(asFact);
}

/** A change as the core knows a fact.
    @param {Change} change */
export const asFact = ({ kind, id, at, fields }) => ({ ...fields, kind, id, at });

// what was looked at since it was known last: what of it is set aside, by its id, null for what can be read
/** @type {Map<string, Aside | null>} */
const looked = new Map();

/** Look at those that nobody looked at yet, a part at a time, as taps are answered in between.
    @param {LoggedChange[]} changes */
async function lookAt(changes) {
  const facts = changes.filter(isFact);
  for (let done = 0; done < facts.length; done += AT_ONCE) await inTurn(facts.slice(done, done + AT_ONCE));
}

// who asks for the same at the same time finds it looked at
let last = Promise.resolve();
/** @param {LoggedChange[]} part */
function inTurn(part) {
  const look = () => lookAtPart(part);
  const mine = last.then(look);
  last = mine.catch(() => {});
  return mine;
}

/** @param {LoggedChange[]} all */
async function lookAtPart(all) {
  const { through } = known();
  const part = all.filter(({ id, seq }) => seq > through && !looked.has(id));
  if (!part.length) return;
  const found = await ask('unreadable', { facts: part.map(asFact) });
  for (const { id } of part) looked.set(id, null);
  for (const { number, fields } of found) {
    const { id, kind, at, stamp } = part[number];
    looked.set(id, { kind, at, phone: stamp.slice(19), fields });
  }
}

/** Know of the log as far as it goes; resolves to whether something can be read by now that could not before.
    @param {Standing} sync */
export async function readOn(sync) {
  const { through, aside } = known();
  if (sync.cursor === through) return false;
  const last = total('aside')?.held;
  const before = last?.was ?? Object.keys(last?.aside ?? {});
  const changes = (await loggedAfter(through)).filter((change) => change.seq <= sync.cursor);
  const found = { ...aside };
  // a part at a time, as a page may be closed meanwhile: `was`, what was set aside before the first of them
  for (let done = 0; done === 0 || done < changes.length; done += KEPT_AT_ONCE) {
    const part = changes.slice(done, done + KEPT_AT_ONCE);
    await lookAt(part);
    for (const { id } of part) {
      // another reading may know of it by now
      const seen = looked.get(id) ?? setAside()[id];
      if (seen) found[id] = seen;
    }
    const isLast = done + KEPT_AT_ONCE >= changes.length;
    const upTo = isLast ? sync.cursor : part[part.length - 1].seq;
    await keepTotals(sync, { aside: { held: { version, aside: { ...found }, ...(!isLast && { was: before }) }, through: upTo } });
    if (known().through === upTo) part.forEach(({ id }) => looked.delete(id));
  }
  return before.some((/** @type {string} */ id) => !found[id]);
}

/** What is set aside: {id: {kind, at, phone, fields}}. */
export const setAside = () => known().aside;
