// @ts-check
/* The log as pulled: chunks of changes in its order, on the disk alone, found by kind, by day and by number. */
import { begin } from './connection.js';
import { isFact } from './is-fact.js';
import { MOST_IN_CHUNK } from './outbox.js';

const readLog = async () => (await begin(['log'])).objectStore('log');

/** Pulled changes of a kind, in the order of the log.
    @param {string} kind */
export async function loggedOfKind(kind) {
  const chunks = await (await readLog()).index('kinds').getAll(kind);
  return chunks.flatMap((chunk) => chunk.changes.filter((change) => change.kind === kind));
}

/** Pulled facts of some local days, in the order of the log; each chunk is read once.
    @param {string[]} days */
export async function loggedOfDays(days) {
  const [log, wanted] = [await readLog(), new Set(days)];
  const keys = await Promise.all(days.map((day) => log.index('days').getAllKeys(day)));
  const each = [...new Set(keys.flat())].sort((a, b) => a - b);
  const chunks = await Promise.all(each.map((key) => log.get(key)));
  return chunks.flatMap((chunk) => (chunk?.changes ?? []).filter((change) => isFact(change) && wanted.has(change.fields.day)));
}

/** Local days of pulled facts up to one, the latest first: so many at most, and with `before` earlier ones alone.
    @param {number} most
    @param {string} latest
    @param {string | null} before */
export async function loggedDays(most, latest, before = null) {
  /** @type {string[]} */
  const days = [];
  const range = before === null ? IDBKeyRange.upperBound(latest) : IDBKeyRange.upperBound(before, true);
  let cursor = await (await readLog()).index('days').openKeyCursor(range, 'prevunique');
  while (cursor && days.length < most) {
    days.push(cursor.key);
    cursor = await cursor.continue();
  }
  return days;
}

/** The first local day of pulled facts after one.
    @param {string} day
    @returns {Promise<string | undefined>} */
export async function nextLoggedDay(day) {
  const cursor = await (await readLog()).index('days').openKeyCursor(IDBKeyRange.lowerBound(day, true));
  return cursor?.key;
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

/** Lay a page behind what is there; the last chunk grows as long as all fits into it.
    @param {import('idb').IDBPObjectStore<Kept, any, 'log', 'readwrite'>} log
    @param {{from: number, changes: LoggedChange[]}} page */
export async function appendTo(log, { from, changes }) {
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
