/* What the phone keeps: changes not yet sent, and what the screens remember.
   Everything is also held in memory, so that no screen waits for the disk. */
import { openDB } from 'idb';

const NAME = 'boltfair';
const VERSION = 1;

let db = null;
let opening = null;
let pending = Promise.resolve();
const changes = [];
const remembered = new Map();
const listeners = new Set();
const otherTabs = new BroadcastChannel('boltfair-kept');

/** Thrown when the phone would not keep something: full, or storage refused. */
export class NotKept extends Error {}

/** Open the store and load it; call once before the first screen. */
export async function openStore() {
  await connect();
  await load();
  otherTabs.onmessage = async () => {
    await load();
    await notify();
  };
}

// each upgrade runs in one transaction: a phone unopened for a year still opens
function upgrade(database, from) {
  if (from < 1) {
    database.createObjectStore('outbox', { keyPath: 'id' });
    database.createObjectStore('remembered');
  }
}

async function connect() {
  if (db) return db;
  opening ??= openDB(NAME, VERSION, {
    upgrade,
    // a newer version of the app waits in another tab: let it have the store
    blocking: () => {
      db?.close();
      db = null;
    },
    // browsers drop connections; the next write opens a new one
    terminated: () => {
      db = null;
    },
  });
  try {
    db = await opening;
  } finally {
    opening = null;
  }
  db.addEventListener('close', () => {
    db = null;
  });
  return db;
}

async function load() {
  const tx = (await connect()).transaction(['outbox', 'remembered']);
  const [kept, keys, values] = await Promise.all([
    tx.objectStore('outbox').getAll(),
    tx.objectStore('remembered').getAllKeys(),
    tx.objectStore('remembered').getAll(),
  ]);
  changes.splice(0, changes.length, ...kept);
  remembered.clear();
  keys.forEach((key, index) => remembered.set(key, values[index]));
}

/** All changes this phone holds, oldest first. */
export function allChanges() {
  return changes;
}

/** Keep changes and the clock they were stamped by, all or none; resolves once durable on disk. */
export async function keepChanges(made, clock) {
  remembered.set('clock', clock);
  await write(['outbox', 'remembered'], 'strict', (tx) => [
    ...made.map((change) => tx.objectStore('outbox').add(change)),
    tx.objectStore('remembered').put(clock, 'clock'),
  ]);
  changes.push(...made);
  otherTabs.postMessage('changes');
  await notify();
}

/** What was remembered under a key. */
export function recall(key, otherwise = null) {
  return remembered.has(key) ? remembered.get(key) : otherwise;
}

/** Remember a value; the screen has it at once, the disk in the background. */
export function remember(key, value) {
  remembered.set(key, value);
  return write(['remembered'], 'relaxed', (tx) => [tx.objectStore('remembered').put(value, key)]);
}

/** Resolves when every write begun so far has ended. */
export function settled() {
  return pending;
}

/** Be told after each change, and waited for; returns the way to stop. */
export function subscribe(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

// a write is over only when those who follow the store have followed
function notify() {
  return Promise.all([...listeners].map((listener) => listener()));
}

// async, so that a failure nobody waits for is heard of as an unhandled one
async function write(storeNames, durability, put) {
  const writing = attempt(storeNames, durability, put);
  pending = Promise.allSettled([pending, writing]);
  await writing;
}

async function attempt(storeNames, durability, put) {
  try {
    const tx = (await connect()).transaction(storeNames, 'readwrite', { durability });
    await Promise.all([...put(tx), tx.done]);
  } catch (error) {
    throw new NotKept(`This phone could not keep that: ${reason(error)}`, { cause: error });
  }
}

function reason({ name, message }) {
  return name === 'QuotaExceededError' ? 'it has no room left' : message || name;
}
