/* What owners are to look at: facts that cannot be read, and what helpers undid, gave back or claim beyond what is usual. */
import { state } from './actions.js';
import { ask, kindNamed } from './asking.js';
import { declared } from './calculating.js';
import { today } from './clock.js';
import { factById, factsOf } from './facts.js';
import { partOfLog } from './part-of-log.js';
import { setAside } from './readable.js';
import { isHelper, records, recordsOf } from './records.js';
import { catchUp, voids } from './stock.js';
import { loggedAfter } from './store/log.js';

/** What is to be looked at: {aside: [{id, kind, at, phone, fields}], doubtful: [{id, kind, at, phone, doubt, of, batch, amount, given,
    limit}]}, as the core's `doubtful` tells, with what is looked at.
    A helper's phone tells only what is set aside. */
export async function toLookAt() {
  // what came just now is among it
  await catchUp();
  const never = await voids();
  const aside = Object.entries(setAside()).filter(([id]) => !never[id]);
  return {
    aside: aside.map(([id, told]) => ({ id, ...told })).sort((a, b) => b.at - a.at),
    doubtful: isHelper() ? [] : await doubtful(never),
  };
}

async function doubtful(never) {
  const watched = declared().kinds.filter((kind) => kind.watched);
  const logged = await madeByHelpers();
  if (!logged.length) return [];
  const byId = new Map(logged.map((change) => [change.id, change]));
  const refunds = await Promise.all(watched.filter(({ takings }) => takings).map(({ name }) => factsOf(name)));
  const undoing = await Promise.all(watched.filter((kind) => kind.voids).map(({ name }) => factsOf(name)));
  const made = undoing.flat().filter(({ id }) => byId.has(id));
  const named = [...refunds.flat().map(({ sale }) => sale), ...made.map((fact) => fact[kindNamed(fact.kind).voids])];
  const about = await Promise.all([...new Set(named)].filter(Boolean).map(factById));
  const facts = [...refunds.flat(), ...made, ...(await claimedWith(watched, logged)), ...about.filter(Boolean), ...(await factsOf('found-right'))];
  const found = await ask('doubtful', {
    facts: [...new Map(facts.map((fact) => [fact.id, fact])).values()],
    received: Object.fromEntries(logged.map(({ id, received }) => [id, received])),
    voids: never,
    dearest: Math.max(0, ...records('product').map(({ price }) => price ?? 0)),
    records: recordsOf(['batch']),
  });
  const known = new Map(facts.map((fact) => [fact.id, fact]));
  return found.map(({ fact: id, doubt, of, given, limit }) => {
    const { kind, at, stamp, fields } = byId.get(id);
    const amount = fields.amount ?? known.get(of)?.amount ?? null;
    return { id, kind, at, phone: stamp.slice(19), doubt, of: known.get(of) ?? null, batch: fields.batch ?? null, amount, given, limit };
  });
}

// when it was received is told of what helpers made alone
const madeByHelpers = partOfLog('made-by-helpers', async (through, cursor) => {
  const fresh = await loggedAfter(through);
  return fresh.filter(({ seq, kind, received }) => seq <= cursor && received && kindNamed(kind)?.watched);
});

// what helpers claim, with all else that is claimed of the same batches and days
async function claimedWith(watched, logged) {
  const kinds = watched.filter(({ name, claims }) => claims && logged.some(({ kind }) => kind === name));
  const said = logged.filter(({ kind }) => kinds.some(({ name }) => name === kind)).map(({ fields }) => fields);
  const [batches, days] = [new Set(said.map(({ batch }) => batch)), new Set(said.map(({ day }) => day))];
  const facts = await Promise.all(kinds.map(({ name }) => factsOf(name)));
  return facts.flat().filter(({ batch, day }) => days.has(day) || (batch && batches.has(batch)));
}

/** Say that what was to be looked at is right: it is listed no more, on any phone. Resolves to the id of that. */
export const findRight = (fact) => state('found-right', { day: today(), fact });

/** Leave a fact out, of whatever kind: it counts for nothing from then on, on every phone. */
export const leaveOut = (fact, reason) => state('left-out', { day: today(), fact, reason });
