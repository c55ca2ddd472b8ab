// @ts-check
/* What is on the disk: six stores, as a phone that was not opened for long gets them, too. */
import { openDB } from 'idb';
import { OUTBOX, repack } from './outbox.js';

const VERSION = 4;

/** What was pulled, and what was folded from that.
    @type {StoreName[]} */
export const PULLED = ['log', 'descriptions', 'totals'];
/** @type {StoreName[]} */
export const ALL_STORES = [...OUTBOX, ...PULLED, 'remembered'];

/** Open the stores of a name, made or brought up to date first; `hearing` are callbacks of `idb`.
    @param {string} name
    @param {object} hearing */
export const openNamed = (name, hearing) => /** @type {typeof openDB<Kept>} */ (openDB)(name, VERSION, { upgrade, ...hearing });

// each upgrade runs in one transaction: a phone unopened for a year still opens
/** @param {import('idb').IDBPDatabase<Kept>} database
    @param {number} from
    @param {number | null} _
    @param {import('idb').IDBPTransaction<Kept, StoreName[], 'versionchange'>} tx */
function upgrade(database, from, _, tx) {
  if (from < 1) {
    database.createObjectStore('outbox', { keyPath: 'id' });
    database.createObjectStore('remembered');
  }
  if (from < 2) {
    const log = database.createObjectStore('log', { keyPath: 'from' });
    log.createIndex('kinds', 'kinds', { multiEntry: true });
    log.createIndex('days', 'days', { multiEntry: true });
    database.createObjectStore('descriptions');
    database.createObjectStore('totals');
  }
  if (from < 3) database.createObjectStore('outbox-chunks');
  else if (from < 4) repack(tx);
}
