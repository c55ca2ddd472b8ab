/* The outbox on the disk. A change is laid there by itself when it is made; what lies there unsent for long
   is packed into chunks, which a start reads far quicker. A change lies in one of the two. */

/** The stores that it takes; a transaction on it needs both. */
export const OUTBOX = ['outbox', 'outbox-chunks'];
const MOST_IN_CHUNK = 500;

/** All own changes, in no order. */
export async function inOutbox(tx) {
  const [single, chunks] = await Promise.all(storesOf(tx).map((store) => store.getAll()));
  return [...chunks.flat(), ...single];
}

/** Put changes in, each in the place of one of its id, and take out what `drop` names. */
export function changeOutbox(tx, put, drop) {
  const [single, chunks] = storesOf(tx);
  const moved = [...put.map(({ id }) => id), ...drop];
  // in this order, so that what was put is seen by what drops a range
  return Promise.all([...put.map((change) => single.put(change)), dropFrom(single, drop), unpack(chunks, moved)]);
}

/** Have these changes and no others. */
export function refillOutbox(tx, changes) {
  const stores = storesOf(tx);
  const sorted = [...changes].sort((a, b) => (a.id < b.id ? -1 : 1));
  // asked for in this order, so cleared before they are filled
  const done = stores.map((store) => store.clear());
  for (let from = 0; from < sorted.length; from += MOST_IN_CHUNK) done.push(putChunk(stores[1], sorted.slice(from, from + MOST_IN_CHUNK)));
  return Promise.all(done);
}

/** Pack one chunk, if enough lies by itself; resolves to whether it did. */
export async function packChunk(tx) {
  const [single, chunks] = storesOf(tx);
  const ids = await single.getAllKeys(null, MOST_IN_CHUNK);
  if (ids.length < MOST_IN_CHUNK) return false;
  const range = IDBKeyRange.bound(ids[0], ids.at(-1));
  await Promise.all([putChunk(chunks, await single.getAll(range)), single.delete(range)]);
  return true;
}

const storesOf = (tx) => OUTBOX.map((name) => tx.objectStore(name));

// a chunk is found by its first and last id, without being read
const putChunk = (chunks, changes) => chunks.put(changes, [changes[0].id, changes.at(-1).id]);

async function unpack(chunks, ids) {
  const gone = new Set(ids);
  const keys = ids.length ? await chunks.getAllKeys() : [];
  const touched = keys.filter(([first, last]) => ids.some((id) => first <= id && id <= last));
  await Promise.all(touched.map(async (key) => {
    const left = (await chunks.get(key)).filter(({ id }) => !gone.has(id));
    await chunks.delete(key);
    if (left.length) await putChunk(chunks, left);
  }));
}

// what is sent together lies together: taken out in one go, unless something else lies there too
async function dropFrom(single, ids) {
  if (!ids.length) return;
  const sorted = [...ids].sort();
  const range = IDBKeyRange.bound(sorted[0], sorted.at(-1));
  const gone = new Set(ids);
  const there = await single.getAllKeys(range);
  await (there.every((id) => gone.has(id)) ? single.delete(range) : Promise.all(ids.map((id) => single.delete(id))));
}
