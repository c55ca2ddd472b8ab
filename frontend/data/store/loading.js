// @ts-check
/* Reading into memory what the disk has: at the start, and where another window or a pairing changed it. */
import { begin } from './connection.js';
import { memory } from './memory.js';
import { inOutbox, OUTBOX } from './outbox.js';
import { holdOutbox } from './own-changes.js';
import { isLater, notOnDisk, recall, writeSoon } from './remembered.js';

/** @type {('descriptions' | 'totals' | 'remembered')[]} */
const BY_KEY = ['descriptions', 'totals', 'remembered'];

/** Have in memory what the disk has; of what is remembered, what is newer here stays. */
export async function loadMemory() {
  // what memory has and the disk has not yet
  writeSoon();
  const tx = await begin([...OUTBOX, ...BY_KEY]);
  const [[own, chunks], ...found] = await Promise.all([inOutbox(tx), ...BY_KEY.map((name) => entriesOf(tx.objectStore(name)))]);
  const clock = recall('clock');
  holdOutbox(own, chunks);
  BY_KEY.forEach((name, index) => {
    memory[name] = new Map(found[index]);
  });
  // what was remembered while that was read is newer
  for (const [key, value] of notOnDisk()) memory.remembered.set(key, value);
  if (isLater(clock, recall('clock'))) memory.remembered.set('clock', clock);
}

/** @param {{getAllKeys(): Promise<string[]>, getAll(): Promise<any[]>}} store
    @returns {Promise<[string, any][]>} */
async function entriesOf(store) {
  const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
  return keys.map((key, index) => [key, values[index]]);
}
