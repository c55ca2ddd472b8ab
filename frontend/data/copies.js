/* Everything on this phone as one file, and such a file taken in: changes merge by their ids. */
import { call } from '../core/core-client.js';
import { partsSent, schema } from './changes.js';
import { loggedByIds, wholeLog } from './store/log.js';
import { keepChanges, ownChanges } from './store/own-changes.js';
import { recall } from './store/remembered.js';
import { invented } from './store/which.js';

const FORMAT = 'boltfair-copy';

/** Everything on this phone as one JSON text. */
export async function copyOfAll() {
  const changes = [...(await wholeLog()), ...ownChanges()].map((change) => ({ ...partsSent(change), partial: change.partial }));
  return JSON.stringify({ format: FORMAT, schema: schema(), business: recall('sync')?.business, changes }, null, 1);
}

/** Load a copy: what is not here yet waits to be sent like what was made here.
    Resolves to {taken, known, bad}: how many of each. */
export async function takeIn(text) {
  if (invented) throw new Error('Leave the invented year first: your own records are not mixed with it');
  const { changes, business } = read(text);
  const sync = recall('sync');
  if (sync?.role === 'helper') throw new Error("Only an owner's phone can load a copy");
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
  if (copy.schema > schema()) throw new Error('This copy is of a newer Boltfair: update this phone first');
  return copy;
}

async function goodOf(changes) {
  const { answer, problems } = await call('good_changes', { changes });
  // what cannot even be asked about spoils none of the others
  if (problems && changes.length > 1) return (await Promise.all(changes.map((change) => goodOf([change])))).flat();
  return changes.filter((_, index) => answer?.[index]).map(partsSent);
}
