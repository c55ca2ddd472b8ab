/* One exchange with the server: send what is unsent, take in what is new, write all of it at once. */
import { call } from '../core/core-client.js';
import { kindNamed } from './calculating.js';
import { deviceId, heard } from './clock.js';
import { heldDescriptions, isFact, keepExchange, ownChanges, recall, remember, wholeLog } from './store.js';

export const SCHEMA = 1;
const PATIENCE_MS = 60000;
const MOST_CHANGES = 500;
const MOST_BYTES = 250000; // of the server's 262,144, the rest for the envelope
const inBytes = new TextEncoder();

/** Thrown when the server answers, but not with an exchange; `status` is HTTP's. */
export class Refused extends Error {
  constructor(status, problem) {
    super(problem?.detail ?? problem?.title ?? `The server answered ${status}`);
    this.status = status;
    this.title = problem?.title;
  }
}

/** Make one exchange. Resolves to true while there is more to send or to take in. */
export async function exchange() {
  const sync = recall('sync');
  const sent = nextBatch();
  const began = Date.now();
  const reply = await post({
    epoch: sync.epoch, cursor: sync.cursor, schema: SCHEMA, sent_at: began, changes: sent, unsent: unsent().length - sent.length,
  });
  // the server told its time somewhere between sending and hearing
  const offset = Math.round(reply.server_time - (began + Date.now()) / 2);
  remember('exchanged', { last: Date.now(), offset });
  if (reply.epoch !== sync.epoch) return startOver(sync, { ...sync, epoch: reply.epoch, role: reply.role, cursor: 0 }, true);
  if (reply.role !== sync.role) return startOver(sync, { ...sync, role: reply.role, cursor: 0 }, false);
  refuseHole(reply, sync);
  await noteClashes(reply, sync);
  await keepExchange(sync, await brought(reply, sent, sync));
  return reply.more || unsent().length > 0;
}

/** Own changes that wait to be sent. */
export function unsent() {
  return ownChanges().filter((change) => !change.trouble && !change.accepted && !change.lent);
}

function nextBatch() {
  const batch = [];
  let bytes = 0;
  for (const change of unsent().slice(0, MOST_CHANGES)) {
    const sent = partsSent(change);
    bytes += inBytes.encode(JSON.stringify(sent)).length + 1;
    if (batch.length && bytes > MOST_BYTES) break;
    batch.push(sent);
  }
  return batch;
}

/** A change as it travels: what the phone notes beside it stays on the phone. */
export function partsSent({ id, kind, record, fields, at, stamp, schema, replaces }) {
  return { id, kind, record, fields, at, stamp, schema, replaces };
}

async function post(body) {
  const zipped = new Blob([JSON.stringify(body)]).stream().pipeThrough(new CompressionStream('gzip'));
  const reply = await fetch('/api/v1/sync', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'Content-Encoding': 'gzip' },
    body: await new Response(zipped).blob(),
    signal: AbortSignal.timeout(PATIENCE_MS),
  });
  if (!reply.ok) throw new Refused(reply.status, await reply.json().catch(() => null));
  return reply.json();
}

// every number of the page must be there, seen or hidden
function refuseHole({ from, through, changes, hidden }, { cursor }) {
  if (from !== cursor || changes.length + hidden.length !== through - from) throw new Error('the page of the log has a hole');
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
    const { status, errors, stamp, seq } = reply.results[index];
    if (met.has(change.id)) return [];
    if (status === 'rejected') return [{ ...change, trouble: errors }];
    return [{ ...change, stamp, accepted: seq }];
  });
}

/* Another life of the log, or another role here: all is pulled anew. What is held stays to be seen
   until then (`lent`). After a restore (`again`) it also goes out again: all of it from an owner's
   phone, its own from a helper's, but never what had parts left out. */
async function startOver(sync, next, again) {
  const own = new Map(ownChanges().map((change) => [change.id, again ? { ...change, accepted: undefined } : change]));
  const held = (await wholeLog()).filter((change) => !own.has(change.id));
  const sendable = (change) => again && !change.partial && (sync.role === 'owner' || change.stamp.endsWith(deviceId()));
  const lent = held.map(({ seq, partial, ...change }) => ({ ...change, fields: seenBy(next.role, change), lent: sendable({ ...change, partial }) ? undefined : true }));
  await keepExchange(sync, { sync: next, put: [...own.values(), ...lent], empty: true });
  return true;
}

/** A change's fields as a role may see them. */
export function seenBy(role, { kind, fields }) {
  const hidden = role === 'helper' ? (kindNamed(kind)?.owner_only ?? []) : [];
  return Object.fromEntries(Object.entries(fields).filter(([name]) => !hidden.includes(name)));
}
