// @ts-check
/* What is kept of the log beside it: descriptions as they were pulled, and totals that were folded from it. */
import { memory } from './memory.js';
import { recall } from './remembered.js';
import { NotKept, write } from './writing.js';

/** Descriptions as pulled: {"kind/record": {field: [value, stamp]}}. */
export function heldDescriptions() {
  return Object.fromEntries(memory.descriptions);
}

/** What is kept folded from the log under a name; undefined before the first fold.
    @param {string} name */
export function total(name) {
  return memory.totals.get(name);
}

/** Keep what was folded from the log, if that still ends where it did, for who was in this role; it can be folded again.
    Where the phone has no room for it, this page alone has it.
    @param {Standing} stood
    @param {Record<string, Total>} totals */
export async function keepTotals(stood, totals) {
  let stands = false;
  try {
    await write(['totals', 'remembered'], 'relaxed', (tx) => [
      stillStands(tx, stood).then((still) => {
        stands = still;
        const put = still ? Object.entries(totals) : [];
        return Promise.all(put.map(([name, value]) => tx.objectStore('totals').put(value, name)));
      }),
    ]);
  } catch (error) {
    if (!(error instanceof NotKept)) throw error;
    stands = isAsItStood(recall('sync'), stood);
  }
  if (stands) Object.entries(totals).forEach(([name, value]) => memory.totals.set(name, value));
}

/** Whether the log on the disk still ends where it did, and is told to the same role.
    @param {Writing} tx
    @param {Standing} stood
    @returns {Promise<boolean>} */
export const stillStands = async (tx, stood) => isAsItStood(await tx.objectStore('remembered').get('sync'), stood);

// in another role the same log is told differently
/** @param {Standing | undefined} here
    @param {Standing} stood */
const isAsItStood = (here, stood) => here?.epoch === stood.epoch && here?.cursor === stood.cursor && here?.role === stood.role;
