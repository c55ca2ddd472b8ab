// @ts-check
/* The invented year's own store, laid in and left. */
import { deleteDB } from 'idb';
import { disconnect } from './connection.js';
import { LEFT, otherWindows } from './following.js';
import { OUTBOX, refillOutbox } from './outbox.js';
import { openNamed } from './stores.js';
import { INVENTED_STORE, MARK } from './which.js';
import { NotKept, whyNotKept, writesEnded } from './writing.js';

/** Lay an invented year into its own store, in the place of any before, and have the next page show it.
    @param {OwnChange[]} changes
    @param {Record<string, any>} remembered */
export async function keepInvented(changes, remembered) {
  const made = await openNamed(INVENTED_STORE, {});
  try {
    const tx = made.transaction(/** @type {StoreName[]} */ ([...OUTBOX, 'remembered']), 'readwrite');
    const notes = tx.objectStore('remembered');
    const put = [notes.clear(), ...Object.entries(remembered).map(([key, value]) => notes.put(value, key))];
    await Promise.all([refillOutbox(tx, changes), ...put, tx.done]);
    localStorage.setItem(MARK, 'yes');
  } catch (error) {
    throw new NotKept(`This phone could not hold the invented year: ${whyNotKept(error)}`, { cause: error });
  } finally {
    made.close();
  }
}

/** Leave the invented year, in every window, with all that was tried in it. */
export async function dropInvented() {
  localStorage.removeItem(MARK);
  await writesEnded();
  otherWindows.postMessage(LEFT);
  disconnect();
  await deleteDB(INVENTED_STORE);
}
