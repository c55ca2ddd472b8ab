/* Everything on this phone as one file, and such a file taken in: changes merge by their ids. */
import { call } from '../core/core-client.js';
import { kindNamed } from './calculating.js';
import { partsSent, SCHEMA } from './exchange.js';
import { loggedByIds, keepChanges, ownChanges, recall, wholeLog } from './store.js';

const FORMAT = 'boltfair-copy';
const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
const STAMP = /^[0-9]{13}-[0-9]{4}-[0-9a-f-]{36}$/;

/** Everything on this phone as one JSON text. */
export async function copyOfAll() {
  const changes = [...(await wholeLog()), ...ownChanges()].map((change) => ({ ...partsSent(change), partial: change.partial }));
  return JSON.stringify({ format: FORMAT, schema: SCHEMA, business: recall('sync')?.business, changes }, null, 1);
}

/** Take a copy in: what is not here yet waits to be sent like what was made here.
    Resolves to {taken, known, bad}: how many of each. */
export async function takeIn(text) {
  const { changes, business } = read(text);
  const sync = recall('sync');
  if (sync?.role === 'helper') throw new Error("Only an owner's phone can take a copy in");
  if (sync && business && business !== sync.business) throw new Error('This is a copy of another business');
  const good = [];
  for (let start = 0; start < changes.length; start += 200) good.push(...(await goodOf(changes.slice(start, start + 200))));
  const here = new Set([...ownChanges(), ...(await loggedByIds(good.map((change) => change.id)))].map((change) => change.id));
  const fresh = [...new Map(good.filter((change) => !here.has(change.id)).map((change) => [change.id, change])).values()];
  if (fresh.length) await keepChanges(fresh, recall('clock', { ms: 0, counter: -1 }));
  return { taken: fresh.length, known: good.length - fresh.length, bad: changes.length - good.length };
}

function read(text) {
  let copy = null;
  try {
    copy = JSON.parse(text);
  } catch {
    // told below, like any other file that is none of ours
  }
  if (copy?.format !== FORMAT || !Array.isArray(copy.changes)) throw new Error('This file is not a copy that Boltfair saved');
  if (copy.schema > SCHEMA) throw new Error('This copy is of a newer Boltfair: update this phone first');
  return copy;
}

async function goodOf(changes) {
  const checked = await Promise.all(changes.map(isGood));
  return changes.filter((_, index) => checked[index]).map(partsSent);
}

// a part of a change is none, and what the core would refuse is not laid over what is here
async function isGood(change) {
  const kind = kindNamed(change?.kind);
  if (!kind || change.partial || !ID.test(change.id) || !STAMP.test(change.stamp) || !Number.isSafeInteger(change.at)) return false;
  if (kind.fact ? change.record !== undefined : !ID.test(change.record)) return false;
  const { problems } = await call('check', { kind_name: kind.name, fields: change.fields, new: kind.fact });
  return !problems;
}
