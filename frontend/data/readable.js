// @ts-check
/* Facts that this version of the app can read. What it cannot, as a later version made it or as it is bent, is
   set aside before anything is made of it; up to which number of the log that is known is kept. */
import { ask } from './asking.js';
import { isFact, keepTotals, loggedAfter, total } from './store.js';

const AT_ONCE = 250;
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
  const { through, aside } = known();
  const fresh = await asideOf(changes.filter((change) => change.seq > through));
  return changes.filter((change) => isFact(change) && !aside[change.id] && !fresh[change.id]).map(asFact);
}

/** A change as the core knows a fact.
    @param {Change} change */
export const asFact = ({ kind, id, at, fields }) => ({ ...fields, kind, id, at });

/** Those among changes that cannot be read, a part at a time, as taps are answered in between.
    @param {LoggedChange[]} changes */
async function asideOf(changes) {
  /** @type {Record<string, Aside>} */
  const aside = {};
  const facts = changes.filter(isFact);
  for (let done = 0; done < facts.length; done += AT_ONCE) {
    const part = facts.slice(done, done + AT_ONCE);
    for (const { number, fields } of await ask('unreadable', { facts: part.map(asFact) })) {
      const { id, kind, at, stamp } = part[number];
      aside[id] = { kind, at, phone: stamp.slice(19), fields };
    }
  }
  return aside;
}

/** Know of the log as far as it goes; resolves to whether something can be read by now that could not before.
    @param {Standing} sync */
export async function readOn(sync) {
  const { through, aside } = known();
  if (sync.cursor === through) return false;
  const before = Object.keys(total('aside')?.held.aside ?? {});
  const found = { ...aside, ...(await asideOf((await loggedAfter(through)).filter((change) => change.seq <= sync.cursor))) };
  await keepTotals(sync, { aside: { held: { version, aside: found }, through: sync.cursor } });
  return before.some((id) => !found[id]);
}

/** What is set aside: {id: {kind, at, phone, fields}}. */
export const setAside = () => known().aside;
