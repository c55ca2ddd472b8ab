// @ts-check
/* What the phone keeps. Six stores, and every exchange writes all but the totals in one transaction:
   outbox and its chunks (own changes not yet met in the log), log (what was pulled, in chunks), descriptions
   (by kind and record, a stamp a field), totals (folded from the log), remembered (forms,
   choices, the clock, where the exchange stands). All but the log is also held in memory, so
   that no screen waits for the disk. */
import { deleteDB, openDB } from 'idb';
import { turnToNewLeaf } from './new-leaf.js';
import { follow, giveFreeWhenLeft, openAnew, takeCarried } from './reopening.js';
import { changeOutbox, factsInChunk, inOutbox, isFact, MOST_IN_CHUNK, OUTBOX, packChunk, refillOutbox, repack } from './outbox.js';

export { isFact };

// under which the next page finds it, and what other windows hear once it is left
const [MARK, LEFT] = ['invented-year', 'left'];
/** Whether this page shows the invented year. That has a store of its own, and nothing of it is ever sent. */
export const invented = isMarked();
const [OWN, INVENTED] = ['boltfair', 'boltfair-invented'];
const NAME = invented ? INVENTED : OWN;
const VERSION = 4;
/** @typedef {'outbox' | 'outbox-chunks' | 'log' | 'descriptions' | 'totals' | 'remembered'} StoreName
    @typedef {import('idb').IDBPTransaction<Kept, StoreName[], 'readwrite'>} Writing
    @typedef {(made: OwnChange[] | null) => unknown} Listener */

/** @type {StoreName[]} */
const STORES = [...OUTBOX, 'log', 'descriptions', 'totals', 'remembered'];
/** @type {StoreName[]} */
const PULLED = ['log', 'descriptions', 'totals'];
// errors of a connection that is no more, whether or not the browser has told so
const LOST = ['InvalidStateError', 'UnknownError'];

/** @type {import('idb').IDBPDatabase<Kept> | null} */
let db = null;
/** @type {Promise<import('idb').IDBPDatabase<Kept>> | null} */
let opening = null;
// nothing is written before this
/** @type {Promise<void> | null} */
let leaf = null;
/** @type {Promise<unknown>} */
let pending = Promise.resolve();
/** @type {('descriptions' | 'totals' | 'remembered')[]} */
const BY_KEY = ['descriptions', 'totals', 'remembered'];
/** @type {{outbox: Map<string, OwnChange>, descriptions: Map<string, Description>, totals: Map<string, Total>, remembered: Map<string, any>}} */
const memory = { outbox: new Map(), descriptions: new Map(), totals: new Map(), remembered: new Map() };
// chunks of own facts that nobody has asked for yet: memory's outbox lacks them
/** @type {string[]} */
let packed = [];
// what was remembered and is not on the disk yet
/** @type {Map<string, any>} */
const unwritten = new Map();
// own changes, oldest first; null where they have to be put in order again
/** @type {OwnChange[] | null} */
let inOrder = null;
/** @type {Set<Listener>} */
const listeners = new Set();
const otherTabs = new BroadcastChannel(`${NAME}-kept`);

/** Thrown when the phone would not keep something: full, or storage refused. */
export class NotKept extends Error {}

/** Open the store and load it; call once before the first screen. Resolves to whether it had been lost. */
export async function openStore() {
  try {
    await connect();
  } catch (error) {
    openAnew(unwritten);
    throw error;
  }
  await load();
  leaf ??= turnToNewLeaf();
  // left already, though the browser was killed before it had written that down
  if (invented && !recall('device')) {
    await dropInvented();
    location.reload();
    await new Promise(() => {});
  }
  const carried = takeCarried();
  for (const [key, value] of carried ?? []) remember(key, value);
  otherTabs.onmessage = async ({ data }) => {
    if (data === LEFT) location.replace('/');
    await load();
    await notify(null);
  };
  return carried !== null;
}

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

/** @param {string} name
    @param {object} hearing */
const openNamed = (name, hearing) => /** @type {typeof openDB<Kept>} */ (openDB)(name, VERSION, { upgrade, ...hearing });

/** @returns {Promise<import('idb').IDBPDatabase<Kept>>} */
async function connect() {
  if (db) return db;
  opening ??= openNamed(NAME, {
    // a newer version of the app waits in another tab: let it have the store
    blocking: close,
    terminated: getBack,
  });
  try {
    db = await opening;
  } finally {
    opening = null;
  }
  return db;
}

function close() {
  db?.close();
  db = null;
  leaf = null;
}

/** @template {StoreName[]} Names
    @template {'readonly' | 'readwrite'} [Mode='readonly']
    @param {Names} storeNames
    @param {Mode} [mode]
    @param {IDBTransactionOptions} [options]
    @returns {Promise<import('idb').IDBPTransaction<Kept, Names, Mode>>} */
async function begin(storeNames, mode, options) {
  const tx = (await connect()).transaction(storeNames, mode, options);
  follow(tx);
  return tx;
}

// browsers drop connections: most give a new one, some only to a page that is loaded anew
function getBack() {
  close();
  connect().catch(() => openAnew(unwritten));
}

async function load() {
  // what memory has and the disk has not yet
  writeSoon();
  const tx = await begin([...OUTBOX, ...BY_KEY]);
  const [[own, chunks], ...found] = await Promise.all([inOutbox(tx), ...BY_KEY.map((name) => entriesOf(tx.objectStore(name)))]);
  const clock = recall('clock');
  memory.outbox = new Map(own.map((change) => [change.id, change]));
  packed = chunks;
  BY_KEY.forEach((name, index) => {
    memory[name] = new Map(found[index]);
  });
  // what was remembered while that was read is newer
  for (const [key, value] of [...unwritten, ...soon]) memory.remembered.set(key, value);
  if (isLater(clock, recall('clock'))) memory.remembered.set('clock', clock);
  inOrder = null;
}

/** @param {{getAllKeys(): Promise<string[]>, getAll(): Promise<any[]>}} store
    @returns {Promise<[string, any][]>} */
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
      await write(OUTBOX, 'strict', (tx) => [
        packChunk(tx).then((done) => {
          more = done;
        }),
      ]);
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

/** One own change by its id; undefined if there is none.
    @param {string} id */
export const ownChange = (id) => memory.outbox.get(id) ?? outbox().get(id);

function outbox() {
  for (const fact of packed.flatMap(factsInChunk)) memory.outbox.set(fact.id, fact);
  packed = [];
  return memory.outbox;
}

/** @param {OwnChange[]} changes */
const sorted = (changes) => changes.sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));

/** Descriptions as pulled: {"kind/record": {field: [value, stamp]}}. */
export function heldDescriptions() {
  return Object.fromEntries(memory.descriptions);
}

/** What is kept folded from the log under a name; undefined before the first fold.
    @param {string} name */
export function total(name) {
  return memory.totals.get(name);
}

const readLog = async () => (await begin(['log'])).objectStore('log');

/** Pulled changes of a kind, in the order of the log.
    @param {string} kind */
export async function loggedOfKind(kind) {
  const chunks = await (await readLog()).index('kinds').getAll(kind);
  return chunks.flatMap((chunk) => chunk.changes.filter((change) => change.kind === kind));
}

/** Pulled facts of a local day, in the order of the log.
    @param {string} day */
export async function loggedOfDay(day) {
  const chunks = await (await readLog()).index('days').getAll(day);
  return chunks.flatMap((chunk) => chunk.changes.filter((change) => isFact(change) && change.fields.day === day));
}

/** Local days of pulled facts, the latest first: so many at most, and with `before` earlier ones alone.
    @param {number} most
    @param {string | null} before */
export async function loggedDays(most, before = null) {
  /** @type {string[]} */
  const days = [];
  const range = before === null ? null : IDBKeyRange.upperBound(before, true);
  let cursor = await (await readLog()).index('days').openKeyCursor(range, 'prevunique');
  while (cursor && days.length < most) {
    days.push(cursor.key);
    cursor = await cursor.continue();
  }
  return days;
}

/** Everything pulled, in the order of the log. */
export async function wholeLog() {
  return (await (await readLog()).getAll()).flatMap((chunk) => chunk.changes);
}

/** Pulled changes above a number of the log, in its order.
    @param {number} seq */
export async function loggedAfter(seq) {
  const log = await readLog();
  // the chunk that it lies in begins at it or before
  const first = await log.openCursor(IDBKeyRange.upperBound(seq), 'prev');
  const chunks = await log.getAll(first ? IDBKeyRange.lowerBound(first.key) : null);
  return chunks.flatMap((chunk) => chunk.changes).filter((change) => change.seq > seq);
}

/** Pulled changes by their ids, looked for from the newest on.
    @param {string[]} ids */
export async function loggedByIds(ids) {
  const wanted = new Set(ids);
  /** @type {LoggedChange[]} */
  const found = [];
  let cursor = wanted.size ? await (await readLog()).openCursor(null, 'prev') : null;
  while (cursor && found.length < wanted.size) {
    found.push(...cursor.value.changes.filter((change) => wanted.has(change.id)));
    cursor = await cursor.continue();
  }
  return found;
}

/** Keep changes and the clock they were stamped by, all or none; resolves once durable on disk.
    What `drop` names leaves the outbox in the same moment, and `also` {key: value} is remembered.
    @param {OwnChange[]} made
    @param {Clock} clock
    @param {string[]} drop
    @param {Record<string, any>} also */
export async function keepChanges(made, clock, drop = [], also = {}) {
  const remembered = Object.entries(also);
  memory.remembered.set('clock', clock);
  await write([...OUTBOX, 'remembered'], 'strict', (tx) => {
    const asked = [
      ...made.map((change) => tx.objectStore('outbox').add(change)),
      ...Object.entries({ clock, ...also }).map(([key, value]) => tx.objectStore('remembered').put(value, key)),
    ];
    if (drop.length) return [...asked, changeOutbox(tx, [], drop)];
    // all is asked for: the disk need not wait until this page has heard of each
    tx.commit();
    return asked;
  });
  for (const [key, value] of remembered) {
    memory.remembered.set(key, value);
    unwritten.delete(key);
  }
  made.forEach((change) => memory.outbox.set(change.id, change));
  drop.forEach((id) => outbox().delete(id));
  const last = drop.length ? undefined : inOrder?.at(-1);
  inOrder = inOrder && last && made[0]?.at > last.at ? [...inOrder, ...made] : null;
  otherTabs.postMessage('changes');
  await notify(drop.length ? null : made);
}

/** Take changes out of the outbox for good.
    @param {string[]} ids */
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
    Resolves to false, with nothing written, if another window was there first.
    @param {Standing} stood
    @param {Brought} brought */
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

/** @param {Writing} tx
    @param {Standing} stood
    @param {Brought} brought */
async function writeExchange(tx, stood, { sync, page, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (!(await stillStands(tx, stood))) return false;
  const [remembered, log, held] = [tx.objectStore('remembered'), tx.objectStore('log'), tx.objectStore('descriptions')];
  if (empty) await Promise.all(PULLED.map((name) => tx.objectStore(name).clear()));
  if (page?.changes.length) await appendTo(log, page);
  const described = Object.entries(descriptions).map(([key, fields]) => held.put(fields, key));
  const ahead = isLater(clock, await remembered.get('clock'));
  await Promise.all([changeOutbox(tx, put, drop), ...described, ahead && remembered.put(clock, 'clock'), remembered.put(sync, 'sync')]);
  return true;
}

/** @param {Writing} tx
    @param {Standing} stood
    @returns {Promise<boolean>} */
const stillStands = async (tx, stood) => isAsItStood(await tx.objectStore('remembered').get('sync'), stood);

// in another role the same log is told differently
/** @param {Standing | undefined} here
    @param {Standing} stood */
const isAsItStood = (here, stood) => here?.epoch === stood.epoch && here?.cursor === stood.cursor && here?.role === stood.role;

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

// the last chunk grows as long as all fits into it
/** @param {import('idb').IDBPObjectStore<Kept, any, 'log', 'readwrite'>} log
    @param {{from: number, changes: LoggedChange[]}} page */
async function appendTo(log, { from, changes }) {
  const last = (await log.openKeyCursor(null, 'prev'))?.key ?? from;
  const grows = last < from && from - last + changes.length <= MOST_IN_CHUNK;
  const all = grows ? [...((await log.get(last))?.changes ?? []), ...changes] : changes;
  /** @type {LogChunk[]} */
  const chunks = [];
  let start = grows ? last : from;
  for (let done = 0; done < all.length; done += MOST_IN_CHUNK) {
    const part = all.slice(done, done + MOST_IN_CHUNK);
    chunks.push({
      from: start,
      kinds: distinct(part, (change) => change.kind),
      days: distinct(part.filter(isFact), (fact) => fact.fields.day),
      changes: part,
    });
    start = part[part.length - 1].seq;
  }
  await Promise.all(chunks.map((chunk) => log.put(chunk)));
}

/** @param {LoggedChange[]} changes
    @param {(change: LoggedChange) => string} partOf */
function distinct(changes, partOf) {
  return [...new Set(changes.map(partOf))].filter(Boolean);
}

/** @param {Brought} brought */
function rememberExchange({ sync, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (empty) [memory.descriptions, memory.totals].forEach((one) => one.clear());
  drop.forEach((id) => outbox().delete(id));
  put.forEach((change) => outbox().set(change.id, change));
  Object.entries(descriptions).forEach(([key, fields]) => memory.descriptions.set(key, fields));
  inOrder = null;
  if (isLater(clock, memory.remembered.get('clock'))) memory.remembered.set('clock', clock);
  memory.remembered.set('sync', sync);
}

// what was stamped while the exchange was on its way may be later still
/** @param {Clock | undefined} clock
    @param {Clock | undefined} kept */
function isLater(clock, kept) {
  return clock && (!kept || clock.ms > kept.ms || (clock.ms === kept.ms && clock.counter > kept.counter));
}

/** Begin with a business: the phone's id there, where the exchange stands, the outbox anew, and the code to be paired again by.
    Without one (`sync` null) all that was pulled goes, too.
    @param {string} device
    @param {Standing | null} sync
    @param {OwnChange[]} outbox
    @param {string | null} again */
export async function keepPairing(device, sync, outbox, again = null) {
  await write(STORES, 'strict', (tx) => {
    const remembered = tx.objectStore('remembered');
    const emptied = sync ? [] : PULLED.map((name) => tx.objectStore(name).clear());
    const known = Object.entries({ device, sync, again }).map(([key, value]) => remembered.put(value, key));
    return [...emptied, refillOutbox(tx, outbox), ...known];
  });
  otherTabs.postMessage('paired');
  await load();
  await notify(null);
}

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

/** @param {string} key
    @param {any} value */
function isWritten(key, value) {
  if (unwritten.get(key) === value) unwritten.delete(key);
}

// what is remembered soon, until it is on its way to the disk
/** @type {Map<string, any>} */
let soon = new Map();
/** @type {Promise<void> | null} */
let soonWritten = null;

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

async function writeSoon() {
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
// behind what is written when a page is left
giveFreeWhenLeft(close);

/** Resolves after the next paint; at once in a page that nobody looks at, as that is not painted. */
export function painted() {
  return /** @type {Promise<void>} */ (
    new Promise((resolve) => {
      if (document.hidden) resolve();
      else requestAnimationFrame(() => setTimeout(resolve));
    })
  );
}

/** Resolves when every write begun so far has ended. */
export function settled() {
  writeSoon();
  return pending;
}

/** Be told after each change, and waited for; returns the way to stop. The listener gets the own
    changes that were just made, or null where anything may have changed.
    @param {Listener} listener */
export function subscribe(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

// a write is over only when those who follow the store have followed
/** @param {OwnChange[] | null} made */
function notify(made) {
  return Promise.all([...listeners].map((listener) => listener(made)));
}

// async, so that a failure nobody waits for is heard of as an unhandled one
/** @param {StoreName[]} storeNames
    @param {'strict' | 'relaxed'} durability
    @param {(tx: Writing) => Promise<unknown>[]} put */
async function write(storeNames, durability, put) {
  const writing = attempt(storeNames, durability, put);
  pending = Promise.allSettled([pending, writing]);
  await writing;
}

/** @param {StoreName[]} storeNames
    @param {'strict' | 'relaxed'} durability
    @param {(tx: Writing) => Promise<unknown>[]} put */
async function attempt(storeNames, durability, put) {
  try {
    leaf ??= turnToNewLeaf();
    await leaf;
    const tx = await begin(storeNames, 'readwrite', { durability });
    await Promise.all([...put(tx), tx.done]);
  } catch (error) {
    if (LOST.includes(/** @type {DOMException} */ (error).name)) getBack();
    throw new NotKept(`This phone could not keep that: ${reason(error)}`, { cause: error });
  }
}

/** @param {any} error */
function reason({ name, message }) {
  return name === 'QuotaExceededError' ? 'it has no room left' : message || name;
}

function isMarked() {
  try {
    return localStorage.getItem(MARK) === 'yes';
  } catch {
    return false; // a browser that refuses it keeps nothing, and shows no invented year
  }
}

/** Lay an invented year into its own store, in the place of any before, and have the next page show it.
    @param {OwnChange[]} changes
    @param {Record<string, any>} remembered */
export async function keepInvented(changes, remembered) {
  const made = await openNamed(INVENTED, {});
  try {
    const tx = made.transaction(/** @type {StoreName[]} */ ([...OUTBOX, 'remembered']), 'readwrite');
    const notes = tx.objectStore('remembered');
    const put = [notes.clear(), ...Object.entries(remembered).map(([key, value]) => notes.put(value, key))];
    await Promise.all([refillOutbox(tx, changes), ...put, tx.done]);
    localStorage.setItem(MARK, 'yes');
  } catch (error) {
    throw new NotKept(`This phone could not hold the invented year: ${reason(error)}`, { cause: error });
  } finally {
    made.close();
  }
}

/** Leave the invented year, in every window, with all that was tried in it. */
export async function dropInvented() {
  localStorage.removeItem(MARK);
  await pending;
  otherTabs.postMessage(LEFT);
  close();
  await deleteDB(INVENTED);
}
