/* One exchange with the server: send what is unsent, take in what is new, write all of it at once. */
import { call } from '../core/core-client.js';
import { partsSent, SCHEMA, seenBy } from './changes.js';
import { deviceId, heard, offsetOf } from './clock.js';
import { heldDescriptions, isFact, keepExchange, ownChanges, recall, remember, wholeLog } from './store.js';

const PATIENCE_MS = 60000;
const FIRST_CHANGES = 250; // few, so that the server soon has work
const MOST_CHANGES = 1500;
const MOST_BYTES = 1000000; // of the server's 1,048,576, the rest for the envelope
const inBytes = new TextEncoder();

/** Thrown when the server answers, but not with an exchange; `status` is HTTP's. */
export class Refused extends Error {
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
async function exchangeFrom(stands, batches) {
  const packed = () => batches.next().value;
  let [batch, written] = [packed(), Promise.resolve(true)];
  let replied, next;
  const send = () => {
    replied = post(stands, batch);
    next = batch.zipped.then(packed);
    return batch.zipped;
  };
  send();
  try {
    for (let more = true; more;) {
      const [reply, kept] = await Promise.all([replied, written]);
      // another window was there first
      if (!kept) return true;
      if (isOther(reply, stands)) return await startOver(stands, reply);
      const [page, { sent }, stood] = [madeWhole(reply, batch.sent, stands), batch, stands];
      [stands, batch] = [{ ...stands, cursor: page.through }, await next];
      more = reply.more || batch.sent.length > 0;
      const out = more ? send() : Promise.resolve();
      written = out.then(() => take(page, sent, stood));
    }
    return !(await written) || unsent().length > 0;
  } finally {
    await Promise.allSettled([written, replied, next]);
  }
}

// another life of the log, or another role here
function isOther({ epoch, role }, stands) {
  return epoch !== stands.epoch || role !== stands.role;
}

/** Own changes that wait to be sent. */
export function unsent() {
  return ownChanges().filter((change) => !change.trouble && !change.accepted && !change.lent);
}

// oldest first, each packed as far as that can be before it is known how far the log goes; empty after the last
function* batchesOf(waiting) {
  for (let gone = 0; ; ) {
    const batch = batchOf(waiting.slice(gone, gone + Math.min(MOST_CHANGES, FIRST_CHANGES + gone)).map(partsSent));
    gone += batch.sent.length;
    yield { ...batch, unsent: waiting.length - gone };
  }
}

function batchOf(sent) {
  const begun = inBytes.encode(`{"changes":${JSON.stringify(sent)},`);
  if (begun.length > MOST_BYTES && sent.length > 1) return batchOf(sent.slice(0, sent.length / 2));
  return { sent, ...packing(begun) };
}

function packing(begun) {
  const zip = new CompressionStream('gzip');
  const writer = zip.writable.getWriter();
  writer.write(begun);
  return { writer, zipped: new Response(zip.readable).blob() };
}

async function post({ epoch, cursor }, { writer, zipped, unsent: left }) {
  const began = Date.now();
  const rest = { epoch, cursor, schema: SCHEMA, sent_at: began, unsent: left };
  writer.write(inBytes.encode(JSON.stringify(rest).slice(1)));
  writer.close();
  const reply = await fetch('/api/v1/sync', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'Content-Encoding': 'gzip' },
    body: await zipped,
    signal: AbortSignal.timeout(PATIENCE_MS),
  });
  if (!reply.ok) throw new Refused(reply.status, await reply.json().catch(() => null));
  const told = await reply.json();
  const last = Date.now();
  remember('exchanged', { last, offset: offsetOf(began, told.server_time, last) });
  return told;
}

/* What was accepted just now is not sent back: the page is made whole by what was sent, with its
   numbers. Then every number of the page must be there, seen or hidden. */
function madeWhole({ changes, results, ...reply }, sent, { cursor }) {
  const there = new Set([...changes.map((change) => change.seq), ...reply.hidden]);
  const whole = [...changes];
  sent.forEach((change, index) => {
    const { seq, stamp = change.stamp } = results[index];
    if (!seq || seq <= cursor || seq > reply.through || there.has(seq)) return;
    there.add(seq);
    whole.push({ ...change, seq, stamp });
  });
  if (reply.from !== cursor || there.size !== reply.through - cursor) throw new Error('the page of the log has a hole');
  return { ...reply, results, changes: whole.sort((a, b) => a.seq - b.seq) };
}

async function take(reply, sent, stood) {
  await noteClashes(reply, stood);
  return keepExchange(stood, await brought(reply, sent, stood));
}

async function brought(reply, sent, sync) {
  const edits = reply.changes.filter((change) => !isFact(change));
  const met = new Set(reply.changes.map((change) => change.id));
  const left = ownChanges().filter((change) => met.has(change.id) || (change.lent && !reply.more));
  return {
    sync: { ...sync, cursor: reply.through },
    page: { from: reply.from, changes: reply.changes },
    descriptions: edits.length ? (await call('merge', { held: heldOf(edits), changes: edits })).answer : {},
    clock: heard([...reply.changes, ...reply.results].map((told) => told.stamp).filter(Boolean)),
    drop: left.map((change) => change.id),
    put: answered(reply, sent, met),
  };
}

// on a first pull, what others once changed at the same time is no news
async function noteClashes({ changes, more }, { cursor }) {
  const mine = ownChanges().filter((change) => !isFact(change));
  const ids = new Set(mine.map((change) => change.id));
  const theirs = changes.filter((change) => !isFact(change) && !ids.has(change.id));
  if (!theirs.length || more || cursor === 0) return;
  const { answer } = await call('clashes', { held: heldOf(theirs), own: mine.filter((change) => !change.trouble), changes: theirs });
  if (Object.keys(answer).length) remember('clashes', { ...recall('clashes', {}), ...answer });
}

function heldOf(edits) {
  const held = heldDescriptions();
  const keys = new Set(edits.map((change) => `${change.kind}/${change.record}`).filter((key) => key in held));
  return Object.fromEntries([...keys].map((key) => [key, held[key]]));
}

// what was sent and is not in this page yet stays, marked with what became of it
function answered(reply, sent, met) {
  return sent.flatMap((change, index) => {
    const { status, errors, seq, stamp = change.stamp } = reply.results[index];
    if (met.has(change.id)) return [];
    if (status === 'rejected') return [{ ...change, trouble: errors }];
    return [{ ...change, stamp, accepted: seq }];
  });
}

/* All is pulled anew. What is held stays to be seen until then (`lent`). In another life of the log,
   as after a restore, it also goes out again: all of it from an owner's phone, its own from a
   helper's, but never what had parts left out. */
async function startOver(sync, { epoch, role }) {
  const next = { ...sync, epoch, role, cursor: 0 };
  const again = epoch !== sync.epoch;
  const own = new Map(ownChanges().map((change) => [change.id, again ? { ...change, accepted: undefined } : change]));
  const held = (await wholeLog()).filter((change) => !own.has(change.id));
  const sendable = (change) => again && !change.partial && (sync.role === 'owner' || change.stamp.endsWith(deviceId()));
  const lent = held.map(({ seq, partial, ...change }) => ({ ...change, fields: seenBy(next.role, change), lent: sendable({ ...change, partial }) ? undefined : true }));
  await keepExchange(sync, { sync: next, put: [...own.values(), ...lent], empty: true });
  return true;
}
