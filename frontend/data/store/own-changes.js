// @ts-check
/* Own changes not yet met in the log: in memory, and in the outbox on the disk. */
import { notify, otherWindows } from './following.js';
import { isFact } from './is-fact.js';
import { memory, unwritten } from './memory.js';
import { changeOutbox, factsInChunk, OUTBOX, packChunk } from './outbox.js';
import { NotKept, write } from './writing.js';

// chunks of own facts that nobody has asked for yet: memory's outbox lacks them
/** @type {string[]} */
let packed = [];
// own changes, oldest first; null where they have to be put in order again
/** @type {OwnChange[] | null} */
let inOrder = null;

/** Own changes not yet met in the log, oldest first. Beside a change's own parts each may carry
    `accepted` (its number in the log), `trouble` (why it was rejected), `lent` (held only until
    the log is pulled anew, never sent). */
export function ownChanges() {
  inOrder ??= sorted([...outbox().values()]);
  return inOrder;
}

/** Own changes that are no facts, oldest first: a start needs no others. */
export const ownEdits = () => sorted([...memory.outbox.values()].filter((change) => !isFact(change)));

/** One own change by its id; undefined if there is none.
    @param {string} id */
export const ownChange = (id) => memory.outbox.get(id) ?? outbox().get(id);

function outbox() {
  for (const fact of packed.flatMap(factsInChunk)) memory.outbox.set(fact.id, fact);
  packed = [];
  return memory.outbox;
}

/** @param {OwnChange[]} changes */
const sorted = (changes) => changes.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

/** Keep changes and the clock they were stamped by, all or none; resolves once durable on disk.
    What `drop` names leaves the outbox in the same moment, and `also` {key: value} is remembered.
    @param {OwnChange[]} made
    @param {Clock} clock
    @param {string[]} drop
    @param {Record<string, any>} also */
export async function keepChanges(made, clock, drop = [], also = {}) {
  const remembered = Object.entries(also);
  memory.remembered.set('clock', clock);
  await write([...OUTBOX, 'remembered'], 'strict', (tx) => {
    const asked = [
      ...made.map((change) => tx.objectStore('outbox').add(change)),
      ...Object.entries({ clock, ...also }).map(([key, value]) => tx.objectStore('remembered').put(value, key)),
    ];
    if (drop.length) return [...asked, changeOutbox(tx, [], drop)];
    // all is asked for: the disk need not wait until this page has heard of each
    tx.commit();
    return asked;
  });
  for (const [key, value] of remembered) {
    memory.remembered.set(key, value);
    unwritten.delete(key);
  }
  made.forEach((change) => memory.outbox.set(change.id, change));
  drop.forEach((id) => outbox().delete(id));
  const last = drop.length ? undefined : inOrder?.at(-1);
  inOrder = inOrder && last && made[0]?.at > last.at ? [...inOrder, ...made] : null;
  otherWindows.postMessage('changes');
  await notify(drop.length ? null : made);
}

/** Take changes out of the outbox for good.
    @param {string[]} ids */
export async function dropChanges(ids) {
  await write(OUTBOX, 'strict', (tx) => [changeOutbox(tx, [], ids)]);
  changeInMemory([], ids);
  otherWindows.postMessage('changes');
  await notify(null);
}

/** Have memory follow what the outbox on the disk was changed by.
    @param {OwnChange[]} put
    @param {string[]} drop */
export function changeInMemory(put, drop) {
  drop.forEach((id) => outbox().delete(id));
  put.forEach((change) => outbox().set(change.id, change));
  inOrder = null;
}

/** Have in memory what was found in the outbox on the disk: changes by themselves, and chunks.
    @param {OwnChange[]} single
    @param {string[]} chunks */
export function holdOutbox(single, chunks) {
  memory.outbox = new Map(single.map((change) => [change.id, change]));
  packed = chunks;
  inOrder = null;
}

/** Pack what waits in the outbox by itself, once it is much; a chunk a transaction, so that no tap waits for all.
    Where the phone has no room for that, it lies there as it did. */
export async function packOutbox() {
  let more = true;
  while (more) {
    try {
      await write(OUTBOX, 'strict', (tx) => [
        packChunk(tx).then((done) => {
          more = done;
        }),
      ]);
    } catch (error) {
      if (!(error instanceof NotKept)) throw error;
      return;
    }
  }
}
