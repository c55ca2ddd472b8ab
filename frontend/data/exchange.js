// @ts-check
/* One exchange with the server: send what is unsent, take in what is new, write all of it at once. */
import { call } from '../core/core-client.js';
import { mayKnowOf, partsSent, schema, seenBy } from './changes.js';
import { deviceId, heard, offsetOf } from './clock.js';
import { keepExchange } from './store/exchanged.js';
import { isFact } from './store/is-fact.js';
import { wholeLog } from './store/log.js';
import { ownChanges } from './store/own-changes.js';
import { heldDescriptions } from './store/pulled.js';
import { recall, remember } from './store/remembered.js';

const PATIENCE_MS = 60000;
const FIRST_CHANGES = 250; // few, so that the server soon has work
const MOST_CHANGES = 1500;
const MOST_BYTES = 1000000; // of the server's 1,048,576, the rest for the envelope
const inBytes = new TextEncoder();

/** @typedef {{sent: Change[], writer: WritableStreamDefaultWriter, zipped: Promise<Blob>, unsent: number}} Batch */

/** Thrown when the server answers, but not with an exchange; `status` is HTTP's. */
export class Refused extends Error {
  /** @param {number} status
      @param {{title?: string, detail?: string} | null} problem */
  constructor(status, problem) {
    super(problem?.detail ?? problem?.title ?? `The server answered ${status}`);
    this.status = status;
    this.title = problem?.title;
  }
}

/** Exchange until nothing is left to send or to take in. */
export async function exchangeAll() {
  let left = true;
  while (left) left = await exchangeFrom(recall('sync'), batchesOf(unsent()));
}

/* Send all batches and take in what there is; resolves to whether anything may be left. A request says how far
   the log goes once the reply before it is written, and its own reply counts only if it was. What can be done
   while the server is at work waits until the request is out: the reply before is written, the next batch packed. */
/** @param {Standing} stands
    @param {Generator<Batch, never>} batches
    @returns {Promise<boolean>} */
async function exchangeFrom(stands, batches) {
  const packed = () => batches.next().value;
  let [batch, written] = [packed(), Promise.resolve(true)];
  const send = () => ({ replied: post(stands, batch), next: batch.zipped.then(packed) });
  let underWay = send();
  try {
    for (let more = true; more; ) {
      const [reply, kept] = await Promise.all([underWay.replied, written]);
      // another window was there first
      if (!kept) return true;
      if (isOther(reply, stands)) return await startOver(stands, reply);
      const [page, { sent }, stood] = [madeWhole(reply, batch.sent, stands), batch, stands];
      [stands, batch] = [{ ...stands, cursor: page.through, last: page.last }, await underWay.next];
      more = reply.more || batch.sent.length > 0;
      if (more) underWay = send();
      const out = more ? batch.zipped : Promise.resolve();
      written = out.then(() => take(page, sent, stood));
    }
    return !(await written) || unsent().length > 0;
  } finally {
    await Promise.allSettled([written, underWay.replied, underWay.next]);
  }
}

// another life of the log, or another role here
/** @param {SyncReply} reply
    @param {Standing} stands */
function isOther(reply, stands) {
  return isOfAnotherLife(reply, stands) || reply.role !== stands.role;
}

// of the same epoch, but not from where this phone stands: the log was put back without a word
/** @param {SyncReply} reply
    @param {Standing} stands */
function isOfAnotherLife({ epoch, from }, stands) {
  return epoch !== stands.epoch || from !== stands.cursor;
}

/** Own changes that wait to be sent. */
export function unsent() {
  return ownChanges().filter((change) => !change.trouble && !change.accepted && !change.lent);
}

// oldest first, each packed as far as that can be before it is known how far the log goes; empty after the last
/** @param {OwnChange[]} waiting
    @returns {Generator<Batch, never>} */
function* batchesOf(waiting) {
  for (let gone = 0; ; ) {
    const batch = batchOf(waiting.slice(gone, gone + Math.min(MOST_CHANGES, FIRST_CHANGES + gone)).map(partsSent));
    gone += batch.sent.length;
    yield { ...batch, unsent: waiting.length - gone };
  }
}

/** @param {Change[]} sent
    @returns {Omit<Batch, 'unsent'>} */
function batchOf(sent) {
  const begun = inBytes.encode(`{"changes":${JSON.stringify(sent)},`);
  if (begun.length > MOST_BYTES && sent.length > 1) return batchOf(sent.slice(0, sent.length / 2));
  return { sent, ...packing(begun) };
}

/** @param {Uint8Array<ArrayBuffer>} begun */
function packing(begun) {
  const zip = new CompressionStream('gzip');
  const writer = zip.writable.getWriter();
  writer.write(begun);
  return { writer, zipped: new Response(zip.readable).blob() };
}

/** @param {Standing} stands
    @param {Batch} batch
    @returns {Promise<SyncReply>} */
async function post({ epoch, cursor, last: seen }, { writer, zipped, unsent: left }) {
  const began = Date.now();
  const rest = { epoch, cursor, last: seen, schema: schema(), sent_at: began, unsent: left };
  writer.write(inBytes.encode(JSON.stringify(rest).slice(1)));
  writer.close();
  const waiting = new AbortController();
  const patience = setTimeout(() => waiting.abort(), PATIENCE_MS);
  onTheWay.set(waiting, began);
  try {
    const reply = await fetch('/api/v1/sync', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'Content-Encoding': 'gzip' },
      body: await zipped,
      signal: waiting.signal,
    });
    if (!reply.ok) throw new Refused(reply.status, await reply.json().catch(() => null));
    const told = await reply.json();
    const last = Date.now();
    remember('exchanged', { last, offset: offsetOf(began, told.server_time, last) });
    return told;
  } finally {
    clearTimeout(patience);
    onTheWay.delete(waiting);
  }
}

/** @type {Map<AbortController, number>} */
const onTheWay = new Map();

/** Wait no more for replies that have been waited for so long: what was sent without a signal may never have one.
    @param {number} ms */
export function breakOff(ms) {
  for (const [waiting, began] of onTheWay) if (Date.now() - began >= ms) waiting.abort();
}

/* What was accepted just now is not sent back: the page is made whole by what was sent, with its
   numbers. Then every number of the page must be there, seen or hidden. */
/** @param {SyncReply} reply
    @param {Change[]} sent
    @param {Standing} stood
    @returns {SyncReply} */
function madeWhole({ changes, results, ...reply }, sent, { cursor }) {
  const there = new Set([...changes.map((change) => change.seq), ...reply.hidden]);
  const whole = [...changes];
  sent.forEach((change, index) => {
    const { seq, stamp = change.stamp, at = change.at } = results[index];
    if (!seq || seq <= cursor || seq > reply.through || there.has(seq)) return;
    there.add(seq);
    whole.push({ ...change, seq, stamp, at });
  });
  if (reply.from !== cursor || there.size !== reply.through - cursor)
    throw new Error('What came was not whole. Nothing is lost; it is asked for again');
  return { ...reply, results, changes: whole.sort((a, b) => a.seq - b.seq) };
}

/** @param {SyncReply} reply
    @param {Change[]} sent
    @param {Standing} stood */
async function take(reply, sent, stood) {
  await noteClashes(reply, stood);
  return keepExchange(stood, await brought(reply, sent, stood));
}

/** @param {SyncReply} reply
    @param {Change[]} sent
    @param {Standing} sync
    @returns {Promise<Brought>} */
async function brought(reply, sent, sync) {
  const edits = reply.changes.filter((change) => !isFact(change));
  const met = new Set(reply.changes.map((change) => change.id));
  const left = ownChanges().filter((change) => met.has(change.id) || (change.lent && !reply.more));
  return {
    sync: { ...sync, cursor: reply.through, last: reply.last },
    page: { from: reply.from, changes: reply.changes },
    descriptions: edits.length ? (await call('merge', { held: heldOf(edits), changes: edits })).answer : {},
    clock: heard([...reply.changes, ...reply.results].flatMap(({ stamp }) => stamp ?? [])),
    drop: left.map((change) => change.id),
    put: answered(reply, sent, met),
  };
}

// on a first pull, what others once changed at the same time is no news
/** @param {SyncReply} reply
    @param {Standing} stood */
async function noteClashes({ changes, more }, { cursor }) {
  const mine = ownChanges().filter((change) => !isFact(change));
  const ids = new Set(mine.map((change) => change.id));
  const theirs = changes.filter((change) => !isFact(change) && !ids.has(change.id));
  if (!theirs.length || more || cursor === 0) return;
  const { answer } = await call('clashes', { held: heldOf(theirs), own: mine.filter((change) => !change.trouble), changes: theirs });
  if (Object.keys(answer).length) remember('clashes', { ...recall('clashes', {}), ...answer });
}

/** @param {Change[]} edits */
function heldOf(edits) {
  const held = heldDescriptions();
  const keys = new Set(edits.map((change) => `${change.kind}/${change.record}`).filter((key) => key in held));
  return Object.fromEntries([...keys].map((key) => [key, held[key]]));
}

// what was sent and is not in this page yet stays, marked with what became of it
/** @param {SyncReply} reply
    @param {Change[]} sent
    @param {Set<string>} met
    @returns {OwnChange[]} */
function answered(reply, sent, met) {
  return sent.flatMap(
    /** @returns {OwnChange[]} */
    (change, index) => {
      const { status, errors, seq, stamp = change.stamp, at = change.at } = reply.results[index];
      if (met.has(change.id)) return [];
      if (status === 'rejected') return [{ ...change, trouble: errors }];
      return [{ ...change, stamp, at, accepted: seq }];
    },
  );
}

/* All is pulled anew. What is held stays to be seen until then (`lent`). In another life of the log,
   as after a restore, it also goes out again: all of it from an owner's phone, its own from a
   helper's, but never what had parts left out. */
/** @param {Standing} sync
    @param {SyncReply} reply */
async function startOver(sync, reply) {
  const next = { ...sync, epoch: reply.epoch, role: reply.role, cursor: 0, last: null };
  const again = isOfAnotherLife(reply, sync);
  const own = new Map(ownChanges().map((change) => [change.id, again ? { ...change, accepted: undefined } : change]));
  const held = (await wholeLog()).filter((change) => !own.has(change.id) && mayKnowOf(next.role, change.kind));
  const sendable = (/** @type {LoggedChange} */ change) => again && !change.partial && (sync.role === 'owner' || change.stamp.endsWith(deviceId()));
  /** @type {OwnChange[]} */
  const lent = held.map((logged) => {
    const { seq, partial, ...change } = logged;
    return { ...change, fields: seenBy(next.role, change), lent: sendable(logged) ? undefined : true };
  });
  await keepExchange(sync, { sync: next, put: [...own.values(), ...lent], empty: true });
  return true;
}
