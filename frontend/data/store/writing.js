// @ts-check
/* Writing to the disk: what is put in one write is there as a whole or not at all. */
import { begin, getBackIfLost, onNewLeaf } from './connection.js';

/** Thrown when the phone would not keep something: full, or storage refused. */
export class NotKept extends Error {}

/** @type {Promise<unknown>} */
let pending = Promise.resolve();

/** Write in one transaction what `put` asks of it; resolves once it is over, throws `NotKept`.
    @param {StoreName[]} storeNames
    @param {'strict' | 'relaxed'} durability
    @param {(tx: Writing) => Promise<unknown>[]} put */
// async, so that a failure nobody waits for is heard of as an unhandled one
export async function write(storeNames, durability, put) {
  const writing = attempt(storeNames, durability, put);
  pending = Promise.allSettled([pending, writing]);
  await writing;
}

/** Resolves when every write begun so far has ended, well or not. */
export const writesEnded = () => pending;

/** @param {StoreName[]} storeNames
    @param {'strict' | 'relaxed'} durability
    @param {(tx: Writing) => Promise<unknown>[]} put */
async function attempt(storeNames, durability, put) {
  try {
    await onNewLeaf();
    const tx = await begin(storeNames, 'readwrite', { durability });
    await Promise.all([...put(tx), tx.done]);
  } catch (error) {
    getBackIfLost(error);
    throw new NotKept(`This phone could not keep that: ${whyNotKept(error)}`, { cause: error });
  }
}

/** Say why the disk would not take something.
    @param {any} error */
export function whyNotKept({ name, message }) {
  return name === 'QuotaExceededError' ? 'it has no room left' : message || name;
}
