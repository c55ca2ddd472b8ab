/* Descriptions as the screens see them: what was pulled, with own edits laid over it by the core. */
import { askOnce, kindNamed } from './asking.js';
import { mayKnowOf } from './changes.js';
import { painted } from './painted.js';
import { subscribe } from './store/following.js';
import { isFact } from './store/is-fact.js';
import { ownChange, ownChanges, ownEdits } from './store/own-changes.js';
import { heldDescriptions } from './store/pulled.js';
import { recall, remember } from './store/remembered.js';

let shown = new Map();
// the end of the log and the own edits that they are made of
let shownFrom = [];
// of kinds that were asked for, with what is not said of them filled in
const whole = new Map();
// of descriptions that have own edits
let states = new Map();
const listeners = new Set();

/** Lay own edits over what is held, and again after each write. */
export async function openRecords() {
  await overlay();
  subscribe(async (made) => {
    const factsOnly = made?.every(isFact);
    if (!factsOnly) await overlay();
    // whoever subscribed later has heard of it by then, too: the stock above all
    tell(factsOnly ? painted() : null);
  });
}

// told and not waited for: what is kept is shown as kept before all that follows from it
async function tell(ready) {
  await ready;
  listeners.forEach((listener) => listener());
}

const HERE = 'on this phone';
const SENT = 'sent';
const TO_CHECK = 'to check';

async function overlay() {
  const [held, { cursor = null } = {}] = [heldDescriptions(), recall('sync') ?? {}];
  // a rejected edit is not shown as if it held: it waits under "to check"
  const own = ownEdits();
  const edits = own.filter((change) => !change.trouble);
  const laid = edits.length ? await askOnce('overlay', 'merge', { held: partOf(held, edits), changes: edits }) : {};
  shown = byKind({ ...held, ...laid });
  shownFrom = [cursor, edits.map(({ id }) => id)];
  whole.clear();
  states = new Map();
  for (const change of own.filter(({ lent }) => !lent)) {
    states.set(change.record, worst(states.get(change.record), stateOf(change)));
  }
}

// several edits of one record: what is said is what most needs to be known
function worst(...found) {
  return [TO_CHECK, HERE, SENT].find((state) => found.includes(state));
}

function partOf(held, edits) {
  const keys = new Set(edits.map((edit) => `${edit.kind}/${edit.record}`).filter((key) => key in held));
  return Object.fromEntries([...keys].map((key) => [key, held[key]]));
}

function byKind(laid) {
  const kinds = new Map();
  for (const [key, fields] of Object.entries(laid)) {
    const [kind, id] = key.split('/');
    const record = { id };
    for (const [name, [value]] of Object.entries(fields)) record[name] = value;
    if (!kinds.has(kind)) kinds.set(kind, new Map());
    kinds.get(kind).set(id, record);
  }
  return kinds;
}

// what is not said of a record has its declared default, but for what this role is not shown
function ofKind(kind) {
  if (!whole.has(kind)) {
    const { fields = [], hidden = {} } = kindNamed(kind) ?? {};
    const unseen = hidden[recall('sync')?.role] ?? [];
    const defaults = Object.fromEntries(fields.filter(({ name }) => !unseen.includes(name)).map((field) => [field.name, field.default]));
    whole.set(kind, new Map([...(shown.get(kind) ?? [])].map(([id, record]) => [id, { ...defaults, ...said(record) }])));
  }
  return whole.get(kind);
}

const said = (record) => Object.fromEntries(Object.entries(record).filter(([, value]) => value !== null));

function stateOf(change) {
  if (change.trouble) return TO_CHECK;
  return change.accepted ? SENT : HERE;
}

/** What the descriptions are made of as they are shown now: while it is the same, they are. */
export const shownOf = () => shownFrom;

/** Descriptions of one kind in the order of their making, put-away ones only if `all` are wanted. */
export function records(kind, all = false) {
  return [...ofKind(kind).values()].filter((record) => all || !record.archived).sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Descriptions of some kinds as the core takes them, put-away ones too: {kind: {id: fields}}. */
export function recordsOf(kinds) {
  const byId = (kind) => Object.fromEntries(records(kind, true).map(({ id, ...fields }) => [id, fields]));
  return Object.fromEntries(kinds.map((kind) => [kind, byId(kind)]));
}

/** One description, put away or not; undefined if there is none. */
export function recordById(kind, id) {
  return ofKind(kind).get(id);
}

/** Whether this phone's role may know of a kind of record at all. */
export const mayKnow = (kind) => mayKnowOf(recall('sync')?.role, kind);

/** Whether this phone's role may add a record of a kind, and whether it may edit one. */
export const mayAdd = (kind) => helperMay(kind, ['write', 'make']);
export const mayEdit = (kind) => helperMay(kind, ['write']);
export const isHelper = () => recall('sync')?.role === 'helper';
const helperMay = (kind, allowed) => !isHelper() || allowed.includes(kindNamed(kind).helper);

/** What is said of a record or a fact: "on this phone", "sent" or "to check". */
export function keptState(id) {
  const fact = states.has(id) ? null : ownChange(id);
  return fact && !fact.lent ? stateOf(fact) : (states.get(id) ?? SENT);
}

/** Fields of a record that two phones changed at once, with the values that did not win; null for none. */
export function clashOf(kind, id) {
  return recall('clashes', {})[`${kind}/${id}`] ?? null;
}

/** Say that a clash was seen. */
export function clashSeen(kind, id) {
  const { [`${kind}/${id}`]: seen, ...others } = recall('clashes', {});
  return remember('clashes', others);
}

/** Changes waiting to be sent, oldest first. */
export function waitingChanges() {
  return ownChanges().filter((change) => stateOf(change) === HERE && !change.lent);
}

/** How many wait to be sent, and since when (UTC ms). */
export function waiting() {
  const unsent = waitingChanges();
  return { count: unsent.length, since: unsent.length ? unsent[0].at : null };
}

/** Changes that the server would not take, each with its `trouble`. */
export function toCheck() {
  return ownChanges().filter((change) => change.trouble);
}

/** Be told after each change of what is shown; returns the way to stop. */
export function onRecords(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
