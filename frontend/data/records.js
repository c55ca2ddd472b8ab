/* Records as the screens see them: folded by the core from the changes kept here. */
import { call } from '../core/core-client.js';
import { allChanges, subscribe } from './store.js';

let folded = {};
let facts = [];
const listeners = new Set();

/** Fold what is kept, and again after each change. */
export async function openRecords() {
  await refold();
  subscribe(async () => {
    await refold();
    listeners.forEach((listener) => listener());
  });
}

async function refold() {
  const changes = allChanges();
  facts = changes.filter((change) => change.record === undefined);
  const edits = changes.filter((change) => change.record !== undefined);
  folded = (await call('fold', { changes: edits })).answer;
}

/** Descriptions of one kind, put-away ones left out, in the order of their making. */
export function records(kind) {
  return Object.entries(folded[kind] ?? {})
    .map(([id, fields]) => ({ id, ...fields }))
    .filter((record) => !record.archived)
    .sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** Facts of one kind, newest first. */
export function factsOf(kind) {
  return facts
    .filter((change) => change.kind === kind)
    .map(({ id, at, fields }) => ({ id, at, ...fields }))
    .reverse();
}

/** Changes waiting to be sent, and since when (UTC ms). */
export function waiting() {
  const changes = allChanges();
  return { count: changes.length, since: changes.length ? changes[0].at : null };
}

/** Be told after each refold; returns the way to stop. */
export function onRecords(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
