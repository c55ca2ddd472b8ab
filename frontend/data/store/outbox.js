// @ts-check
/* The outbox on the disk. A change is laid there by itself when it is made; facts that lie there unsent for long
   are packed into chunks, each a JSON text: a start need not read what is in it. A change lies in one of the two. */
import { isFact } from './is-fact.js';

/** The stores that it takes; a transaction on it needs both.
    @type {('outbox' | 'outbox-chunks')[]} */
export const OUTBOX = ['outbox', 'outbox-chunks'];
/** How many changes a chunk has at most, here and in the log: one record is far quicker to write and to read
    than a record a change. */
export const MOST_IN_CHUNK = 500;
// there are far fewer edits than facts
const LOOKED_AT = 2 * MOST_IN_CHUNK;

/** Own changes that lie by themselves, all edits among them, in no order; and the chunks.
    @param {import('idb').IDBPTransaction<Kept, any, any>} tx
    @returns {Promise<[OwnChange[], string[]]>} */
export function inOutbox(tx) {
  const [single, chunks] = storesOf(tx);
  return Promise.all([single.getAll(), chunks.getAll()]);
}

/** The facts in a chunk.
    @param {string} chunk
    @returns {OwnChange[]} */
export const factsInChunk = (chunk) => JSON.parse(chunk);

/** Lay all anew that an earlier version packed as objects, edits among them.
    @param {import('idb').IDBPTransaction<Kept, any, 'versionchange'>} tx */
export async function repack(tx) {
  const [single, chunks] = storesOf(tx);
  const packed = /** @type {any[]} */ (await chunks.getAll());
  await Promise.all([chunks.clear(), ...packed.flat().map((change) => single.put(change))]);
}

/** Put changes in, each in the place of one of its id, and take out what `drop` names.
    @param {Writing} tx
    @param {OwnChange[]} put
    @param {string[]} drop
    @returns {Promise<unknown>} */
export function changeOutbox(tx, put, drop) {
  const [single, chunks] = storesOf(tx);
  const moved = [...put.map(({ id }) => id), ...drop];
  // in this order, so that what was put is seen by what drops a range
  return Promise.all([...put.map((change) => single.put(change)), dropFrom(single, drop), unpack(chunks, moved)]);
}

/** Have these changes and no others.
    @param {Writing} tx
    @param {OwnChange[]} changes
    @returns {Promise<unknown>} */
export function refillOutbox(tx, changes) {
  const [single, chunks] = storesOf(tx);
  const facts = changes.filter(isFact).sort((a, b) => (a.id < b.id ? -1 : 1));
  // asked for in this order, so cleared before they are filled
  /** @type {Promise<unknown>[]} */
  const done = [single.clear(), chunks.clear(), ...changes.filter((change) => !isFact(change)).map((edit) => single.put(edit))];
  for (let from = 0; from < facts.length; from += MOST_IN_CHUNK) done.push(putChunk(chunks, facts.slice(from, from + MOST_IN_CHUNK)));
  return Promise.all(done);
}

/** Pack one chunk, if enough lies by itself; resolves to whether it did.
    @param {Writing} tx */
export async function packChunk(tx) {
  const [single, chunks] = storesOf(tx);
  if ((await single.count()) < MOST_IN_CHUNK) return false;
  const facts = (await single.getAll(null, LOOKED_AT)).filter(isFact).slice(0, MOST_IN_CHUNK);
  if (facts.length < MOST_IN_CHUNK) return false;
  await Promise.all([
    putChunk(chunks, facts),
    dropFrom(
      single,
      facts.map(({ id }) => id),
    ),
  ]);
  return true;
}

/** @typedef {import('idb').IDBPObjectStore<Kept, any, 'outbox', 'readwrite'>} Single
    @typedef {import('idb').IDBPObjectStore<Kept, any, 'outbox-chunks', 'readwrite'>} Chunks */

/** @param {import('idb').IDBPTransaction<Kept, any, any>} tx
    @returns {[Single, Chunks]} */
function storesOf(tx) {
  return [tx.objectStore('outbox'), tx.objectStore('outbox-chunks')];
}

// a chunk is found by its first and last id, without being read
/** @param {Chunks} chunks
    @param {OwnChange[]} changes */
const putChunk = (chunks, changes) => chunks.put(JSON.stringify(changes), [changes[0].id, changes[changes.length - 1].id]);

/** @param {Chunks} chunks
    @param {string[]} ids */
async function unpack(chunks, ids) {
  const gone = new Set(ids);
  /** @type {[string, string][]} */
  const keys = ids.length ? await chunks.getAllKeys() : [];
  const touched = keys.filter(([first, last]) => ids.some((id) => first <= id && id <= last));
  await Promise.all(
    touched.map(async (key) => {
      const left = factsInChunk((await chunks.get(key)) ?? '[]').filter(({ id }) => !gone.has(id));
      await chunks.delete(key);
      if (left.length) await putChunk(chunks, left);
    }),
  );
}

// what is sent together lies together: taken out in one go, unless something else lies there too
/** @param {Single} single
    @param {string[]} ids */
async function dropFrom(single, ids) {
  if (!ids.length) return;
  const sorted = [...ids].sort();
  const range = IDBKeyRange.bound(sorted[0], sorted[sorted.length - 1]);
  const gone = new Set(ids);
  /** @type {string[]} */
  const there = await single.getAllKeys(range);
  await (there.every((id) => gone.has(id)) ? single.delete(range) : Promise.all(ids.map((id) => single.delete(id))));
}
