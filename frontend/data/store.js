/* What the phone keeps. Six stores, and every exchange writes all but the totals in one transaction:
   outbox and its chunks (own changes not yet met in the log), log (what was pulled, in chunks), descriptions
   (by kind and record, a stamp a field), totals (folded from the log), remembered (forms,
   choices, the clock, where the exchange stands). All but the log is also held in memory, so
   that no screen waits for the disk. */
import { openDB } from 'idb';
import { changeOutbox, factsInChunk, inOutbox, isFact, OUTBOX, packChunk, refillOutbox, repack } from './outbox.js';

export { isFact };

const NAME = 'boltfair';
const VERSION = 4;
const STORES = [...OUTBOX, 'log', 'descriptions', 'totals', 'remembered'];
// a chunk of the log is one record: far quicker to write and to read than a record a change
const MOST_IN_CHUNK = 500;

let db = null;
let opening = null;
let pending = Promise.resolve();
const BY_KEY = ['descriptions', 'totals', 'remembered'];
const memory = Object.fromEntries(['outbox', ...BY_KEY].map((name) => [name, new Map()]));
// chunks of own facts that nobody has asked for yet: memory's outbox lacks them
let packed = [];
// own changes, oldest first; null where they have to be put in order again
let inOrder = null;
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
    await notify(null);
  };
}

// each upgrade runs in one transaction: a phone unopened for a year still opens
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
  const tx = (await connect()).transaction([...OUTBOX, ...BY_KEY]);
  const [[own, chunks], ...found] = await Promise.all([inOutbox(tx), ...BY_KEY.map((name) => entriesOf(tx.objectStore(name)))]);
  memory.outbox = new Map(own.map((change) => [change.id, change]));
  packed = chunks;
  BY_KEY.forEach((name, index) => {
    memory[name] = new Map(found[index]);
  });
  inOrder = null;
}

async function entriesOf(store) {
  const [keys, values] = await Promise.all([store.getAllKeys(), store.getAll()]);
  return keys.map((key, index) => [key, values[index]]);
}

/** Pack what waits in the outbox by itself, once it is much; a chunk a transaction, so that no tap waits for all.
    Where the phone has no room for that, it lies there as it did. */
export async function packOutbox() {
  let more = true;
  while (more) {
    try {
      await write(OUTBOX, 'strict', (tx) => [packChunk(tx).then((done) => {
        more = done;
      })]);
    } catch (error) {
      if (!(error instanceof NotKept)) throw error;
      return;
    }
  }
}

/** Own changes not yet met in the log, oldest first. Beside a change's own parts each may carry
    `accepted` (its number in the log), `trouble` (why it was rejected), `lent` (held only until
    the log is pulled anew, never sent). */
export function ownChanges() {
  inOrder ??= sorted([...outbox().values()]);
  return inOrder;
}

/** Own changes that are no facts, oldest first: a start needs no others. */
export const ownEdits = () => sorted([...memory.outbox.values()].filter((change) => !isFact(change)));

/** One own change by its id; undefined if there is none. */
export const ownChange = (id) => memory.outbox.get(id) ?? outbox().get(id);

function outbox() {
  for (const fact of packed.flatMap(factsInChunk)) memory.outbox.set(fact.id, fact);
  packed = [];
  return memory.outbox;
}

const sorted = (changes) => changes.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

/** Descriptions as pulled: {"kind/record": {field: [value, stamp]}}. */
export function heldDescriptions() {
  return Object.fromEntries(memory.descriptions);
}

/** What is kept folded from the log under a name; undefined before the first fold. */
export function total(name) {
  return memory.totals.get(name);
}

/** Pulled changes of a kind, in the order of the log. */
export async function loggedOfKind(kind) {
  const chunks = await (await connect()).getAllFromIndex('log', 'kinds', kind);
  return chunks.flatMap((chunk) => chunk.changes.filter((change) => change.kind === kind));
}

/** Pulled facts of a local day, in the order of the log. */
export async function loggedOfDay(day) {
  const chunks = await (await connect()).getAllFromIndex('log', 'days', day);
  return chunks.flatMap((chunk) => chunk.changes.filter((change) => isFact(change) && change.fields.day === day));
}

/** Local days of pulled facts, the latest first. */
export async function loggedDays() {
  const days = [];
  let cursor = await (await connect()).transaction('log').store.index('days').openKeyCursor(null, 'prevunique');
  while (cursor) {
    days.push(cursor.key);
    cursor = await cursor.continue();
  }
  return days;
}

/** Everything pulled, in the order of the log. */
export async function wholeLog() {
  return (await (await connect()).getAll('log')).flatMap((chunk) => chunk.changes);
}

/** Pulled changes above a number of the log, in its order. */
export async function loggedAfter(seq) {
  const log = (await connect()).transaction('log').store;
  // the chunk that it lies in begins at it or before
  const first = await log.openCursor(IDBKeyRange.upperBound(seq), 'prev');
  const chunks = await log.getAll(first ? IDBKeyRange.lowerBound(first.key) : null);
  return chunks.flatMap((chunk) => chunk.changes).filter((change) => change.seq > seq);
}

/** Pulled changes by their ids, looked for from the newest on. */
export async function loggedByIds(ids) {
  const wanted = new Set(ids);
  const found = [];
  let cursor = wanted.size ? await (await connect()).transaction('log').store.openCursor(null, 'prev') : null;
  while (cursor && found.length < wanted.size) {
    found.push(...cursor.value.changes.filter((change) => wanted.has(change.id)));
    cursor = await cursor.continue();
  }
  return found;
}

/** Keep changes and the clock they were stamped by, all or none; resolves once durable on disk.
    What `drop` names leaves the outbox in the same moment, and `also` {key: value} is remembered. */
export async function keepChanges(made, clock, drop = [], also = {}) {
  const remembered = Object.entries(also);
  memory.remembered.set('clock', clock);
  await write([...OUTBOX, 'remembered'], 'strict', (tx) => {
    const asked = [
      ...made.map((change) => tx.objectStore('outbox').add(change)),
      ...[['clock', clock], ...remembered].map(([key, value]) => tx.objectStore('remembered').put(value, key)),
    ];
    if (drop.length) return [...asked, changeOutbox(tx, [], drop)];
    // all is asked for: the disk need not wait until this page has heard of each
    tx.commit();
    return asked;
  });
  remembered.forEach(([key, value]) => memory.remembered.set(key, value));
  made.forEach((change) => memory.outbox.set(change.id, change));
  drop.forEach((id) => outbox().delete(id));
  const later = inOrder?.length && !drop.length && made[0]?.at > inOrder.at(-1).at;
  inOrder = later ? [...inOrder, ...made] : null;
  otherTabs.postMessage('changes');
  await notify(drop.length ? null : made);
}

/** Take changes out of the outbox for good. */
export async function dropChanges(ids) {
  await write(OUTBOX, 'strict', (tx) => [changeOutbox(tx, [], ids)]);
  ids.forEach((id) => outbox().delete(id));
  inOrder = null;
  otherTabs.postMessage('changes');
  await notify(null);
}

/** Write what an exchange brought, all or none, if things still stand as they did when it was sent.

    Takes: stood, the epoch and cursor that were sent; brought, {sync, page?, descriptions?, clock?,
    drop?, put?, empty?}: page is {from, changes} for the log; drop are ids that leave the
    outbox, put changes that enter it or replace one there; empty clears all that was pulled before.
    Resolves to false, with nothing written, if another window was there first. */
export async function keepExchange(stood, brought) {
  const { empty, page, put = [], drop = [] } = brought;
  let written = false;
  await write(STORES, 'strict', (tx) => [
    writeExchange(tx, stood, brought).then((done) => {
      written = done;
    }),
  ]);
  if (written) rememberExchange(brought);
  else await load();
  otherTabs.postMessage('exchange');
  const changed = empty || page?.changes.length || put.length || drop.length;
  if (!written || changed) await notify(null);
  return written;
}

async function writeExchange(tx, stood, { sync, page, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (!(await stillStands(tx, stood))) return false;
  const [remembered, log, held] = ['remembered', 'log', 'descriptions'].map((name) => tx.objectStore(name));
  if (empty) await Promise.all([log, held, tx.objectStore('totals')].map((store) => store.clear()));
  if (page?.changes.length) await appendTo(log, page);
  const described = Object.entries(descriptions).map(([key, fields]) => held.put(fields, key));
  const ahead = isLater(clock, await remembered.get('clock'));
  await Promise.all([changeOutbox(tx, put, drop), ...described, ahead && remembered.put(clock, 'clock'), remembered.put(sync, 'sync')]);
  return true;
}

async function stillStands(tx, stood) {
  const here = await tx.objectStore('remembered').get('sync');
  return here?.epoch === stood.epoch && here.cursor === stood.cursor;
}

/** Keep what was folded from the log, if that still ends where it did; it can be folded again. */
export async function keepTotals(stood, totals) {
  let written = false;
  await write(['totals', 'remembered'], 'relaxed', (tx) => [
    stillStands(tx, stood).then((stands) => {
      written = stands;
      return stands && Promise.all(Object.entries(totals).map(([name, value]) => tx.objectStore('totals').put(value, name)));
    }),
  ]);
  if (written) Object.entries(totals).forEach(([name, value]) => memory.totals.set(name, value));
}

// the last chunk grows as long as all fits into it
async function appendTo(log, { from, changes }) {
  const last = (await log.openKeyCursor(null, 'prev'))?.key ?? from;
  const grows = last < from && from - last + changes.length <= MOST_IN_CHUNK;
  const all = grows ? [...(await log.get(last)).changes, ...changes] : changes;
  const chunks = [];
  let start = grows ? last : from;
  for (let done = 0; done < all.length; done += MOST_IN_CHUNK) {
    const part = all.slice(done, done + MOST_IN_CHUNK);
    chunks.push({ from: start, kinds: distinct(part, (change) => change.kind), days: distinct(part.filter(isFact), (fact) => fact.fields.day), changes: part });
    start = part.at(-1).seq;
  }
  await Promise.all(chunks.map((chunk) => log.put(chunk)));
}

function distinct(changes, valueOf) {
  return [...new Set(changes.map(valueOf))].filter(Boolean);
}

function rememberExchange({ sync, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (empty) ['descriptions', 'totals'].forEach((name) => memory[name].clear());
  drop.forEach((id) => outbox().delete(id));
  put.forEach((change) => outbox().set(change.id, change));
  Object.entries(descriptions).forEach(([key, fields]) => memory.descriptions.set(key, fields));
  inOrder = null;
  if (isLater(clock, memory.remembered.get('clock'))) memory.remembered.set('clock', clock);
  memory.remembered.set('sync', sync);
}

// what was stamped while the exchange was on its way may be later still
function isLater(clock, kept) {
  return clock && (!kept || clock.ms > kept.ms || (clock.ms === kept.ms && clock.counter > kept.counter));
}

/** Begin with a business: the phone's id there, where the exchange stands, and the outbox anew.
    Without one (`sync` null) all that was pulled goes, too. */
export async function keepPairing(device, sync, outbox) {
  await write(STORES, 'strict', (tx) => {
    const remembered = tx.objectStore('remembered');
    const emptied = sync ? [] : ['log', 'descriptions', 'totals'].map((name) => tx.objectStore(name).clear());
    return [...emptied, refillOutbox(tx, outbox), remembered.put(device, 'device'), remembered.put(sync, 'sync')];
  });
  otherTabs.postMessage('paired');
  await load();
  await notify(null);
}

/** What was remembered under a key. */
export function recall(key, otherwise = null) {
  return memory.remembered.has(key) ? memory.remembered.get(key) : otherwise;
}

/** Remember a value; the screen has it at once, the disk in the background. */
export function remember(key, value) {
  memory.remembered.set(key, value);
  return write(['remembered'], 'relaxed', (tx) => [tx.objectStore('remembered').put(value, key)]);
}

/** Resolves when every write begun so far has ended. */
export function settled() {
  return pending;
}

/** Be told after each change, and waited for; returns the way to stop. The listener gets the own
    changes that were just made, or null where anything may have changed. */
export function subscribe(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

// a write is over only when those who follow the store have followed
function notify(made) {
  return Promise.all([...listeners].map((listener) => listener(made)));
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
