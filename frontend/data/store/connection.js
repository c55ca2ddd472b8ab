// @ts-check
/* The connection to the store: made when it is asked for, left to who waits for it, and got back where the browser drops it. */
import { unwritten } from './memory.js';
import { turnToNewLeaf } from './new-leaf.js';
import { follow, openAnew } from './reopening.js';
import { openNamed } from './stores.js';
import { STORE } from './which.js';

// errors of a connection that is no more, whether or not the browser has told so
const LOST = ['InvalidStateError', 'UnknownError'];

/** @type {import('idb').IDBPDatabase<Kept> | null} */
let db = null;
/** @type {Promise<import('idb').IDBPDatabase<Kept>> | null} */
let opening = null;
/** @type {Promise<void> | null} */
let leaf = null;

/** The connection, made where there is none.
    @returns {Promise<import('idb').IDBPDatabase<Kept>>} */
export async function connect() {
  if (db) return db;
  opening ??= openNamed(STORE, {
    // a newer version of the app waits in another tab: let it have the store
    blocking: disconnect,
    terminated: getBack,
  });
  try {
    db = await opening;
  } finally {
    opening = null;
  }
  return db;
}

/** Let the connection go; who asks for it next makes another. */
export function disconnect() {
  db?.close();
  db = null;
  leaf = null;
}

// browsers drop connections: most give a new one, some only to a page that is loaded anew
function getBack() {
  disconnect();
  connect().catch(() => openAnew(unwritten));
}

/** Get the connection back where an error says that it is no more.
    @param {any} error */
export function getBackIfLost(error) {
  if (LOST.includes(error.name)) getBack();
}

/** Resolves once a new leaf is turned to on this connection: nothing is written before. */
export function onNewLeaf() {
  leaf ??= turnToNewLeaf();
  return leaf;
}

/** Begin a transaction.
    @template {StoreName[]} Names
    @template {'readonly' | 'readwrite'} [Mode='readonly']
    @param {Names} storeNames
    @param {Mode} [mode]
    @param {IDBTransactionOptions} [options]
    @returns {Promise<import('idb').IDBPTransaction<Kept, Names, Mode>>} */
export async function begin(storeNames, mode, options) {
  const tx = (await connect()).transaction(storeNames, mode, options);
  follow(tx);
  return tx;
}
