// @ts-check
/* What is remembered by a key: forms, choices, the clock, where the exchange stands. */
import { painted } from '../painted.js';
import { memory, unwritten } from './memory.js';
import { write, writesEnded } from './writing.js';

// what is remembered soon, until it is on its way to the disk
/** @type {Map<string, any>} */
let soon = new Map();
/** @type {Promise<void> | null} */
let soonWritten = null;

/** What was remembered under a key.
    @param {string} key
    @param {any} otherwise
    @returns {any} */
export function recall(key, otherwise = null) {
  return memory.remembered.has(key) ? memory.remembered.get(key) : otherwise;
}

/** Remember a value; the screen has it at once, the disk in the background.
    @param {string} key
    @param {any} value */
export async function remember(key, value) {
  memory.remembered.set(key, value);
  unwritten.set(key, value);
  await write(['remembered'], 'relaxed', (tx) => [tx.objectStore('remembered').put(value, key)]);
  isWritten(key, value);
}

/** Remember a value as `remember` does, but after the next paint, and all of that time in one write: for what comes
    with each key and must not hold its answer up. A page that is left writes it at once.
    @param {string} key
    @param {any} value */
export function rememberSoon(key, value) {
  memory.remembered.set(key, value);
  soon.set(key, value);
  soonWritten ??= painted().then(writeSoon);
  return soonWritten;
}

/** Write what is remembered soon without waiting for the paint. */
export async function writeSoon() {
  const values = soon;
  soon = new Map();
  soonWritten = null;
  if (!values.size) return;
  values.forEach((value, key) => unwritten.set(key, value));
  await write(['remembered'], 'relaxed', (tx) => {
    const putting = [...values].map(([key, value]) => tx.objectStore('remembered').put(value, key));
    // a page that is left hears of nothing more
    tx.commit();
    return putting;
  });
  values.forEach((value, key) => isWritten(key, value));
}

addEventListener('pagehide', writeSoon);
addEventListener('visibilitychange', () => document.hidden && writeSoon());

/** @param {string} key
    @param {any} value */
function isWritten(key, value) {
  if (unwritten.get(key) === value) unwritten.delete(key);
}

/** What memory has and the disk has not yet: [[key, value]]. */
export const notOnDisk = () => [...unwritten, ...soon];

/** Resolves when every write begun so far has ended, and that of what is remembered soon. */
export function settled() {
  writeSoon();
  return writesEnded();
}

/** Whether a clock is later than the one that is kept: what was stamped while an exchange was on its way may be.
    @param {Clock | undefined} clock
    @param {Clock | undefined} kept */
export function isLater(clock, kept) {
  return clock && (!kept || clock.ms > kept.ms || (clock.ms === kept.ms && clock.counter > kept.counter));
}
