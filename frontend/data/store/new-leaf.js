// @ts-check
/* A new leaf for what is written, on Chromium. It goes on in the log of its databases where the process before ended; where
   that was killed amid a write, the log is broken there, and the next start but one drops every database, with all that was
   kept since and before. Deleting a database, be it an empty one, has a new log begun. */
import { deleteDB, openDB } from 'idb';

const EMPTY = 'boltfair-new-leaf';
// a page that the browser has frozen may hold it
const LONGEST_WAIT_MS = 1000;

/** Resolves once what is written now is written to a log that no kill has broken. */
export async function turnToNewLeaf() {
  if (!('userAgentData' in navigator)) return;
  // a phone without room for it goes on as it was
  await Promise.race([openAndDelete().catch(() => {}), new Promise((resolve) => setTimeout(resolve, LONGEST_WAIT_MS))]);
}

async function openAndDelete() {
  (await openDB(EMPTY)).close();
  await deleteDB(EMPTY);
}
