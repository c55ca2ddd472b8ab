/* What a tap does: check with the core, then keep. Nothing is shown as kept before it is. */
import { call } from '../core/core-client.js';
import { problemsInWords } from './calculating.js';
import { changed, schema, seenBy } from './changes.js';
import { newId, nextStamp } from './clock.js';
import { askToPersist } from './persistence.js';
import { recordById } from './records.js';
import { dropChanges, keepChanges } from './store/own-changes.js';
import { recall } from './store/remembered.js';

/** Thrown in words when the core finds a record's fields bad; `problems` as data. */
export class BadRecord extends Error {
  constructor(words, problems) {
    super(words);
    this.problems = problems;
  }
}

/** Keep a new description; resolves to its id. */
export async function describeNew(kind, fields) {
  const [record] = await keepTogether({ described: [[kind, fields]] });
  return record;
}

/** Change some fields of a description. */
export async function edit(kind, record, fields) {
  await keepTogether({ edited: [[kind, record, fields]] });
}

/** Put a description away; it can be brought back for a moment with `bringBack`. */
export const putAway = (kind, record) => edit(kind, record, { archived: true });
export const bringBack = (kind, record) => edit(kind, record, { archived: false });

/** Append a fact; what is to be remembered with it {key: value} is kept in the same moment. Resolves to its id. */
export async function state(kind, fields, also) {
  const [id] = await stateAll([[kind, fields]], also);
  return id;
}

/** Append several facts, [kind, fields] each and perhaps the id it is to have, all or none; resolves to their ids. */
export async function stateAll(facts, also) {
  const parts = await Promise.all(facts.map(async ([kind, fields, id = newId()]) => ({ id, kind, fields: await check(kind, fields, true) })));
  return keep(parts, [], also);
}

/** Keep facts and new descriptions ([kind, fields], and its id where others name it) and edits
    ([kind, id, fields]), all or none; resolves to the ids of the new descriptions. */
export async function keepTogether({ facts = [], described = [], edited = [] }) {
  const ids = described.map(([, , id]) => id ?? newId());
  await keep(
    await Promise.all([
      ...facts.map(async ([kind, fields, id = newId()]) => ({ id, kind, fields: await check(kind, fields, true) })),
      ...described.map(async ([kind, fields], index) => ({ kind, fields: await check(kind, fields, true), record: ids[index] })),
      ...edited.map(async ([kind, record, fields]) => ({ kind, fields: await check(kind, fields, false), record })),
    ]),
  );
  return ids;
}

/** Put a corrected change in the place of one that the server would not take. */
export async function correct({ id, kind, record, fields: before }, fields) {
  // of an edit only what it was about, and what was changed beside it
  const about = record ? { ...pick(fields, Object.keys(before)), ...changed({ ...recordById(kind, record), ...before }, fields) } : fields;
  await keep([{ kind, fields: await check(kind, about, !record), record, replaces: id }], [id]);
}

/** Forget a change that the server would not take; for a moment it can be put back. */
export const letGo = (id) => dropChanges([id]);
export const putBack = (change) => keepChanges([change], recall('clock'));

function pick(fields, names) {
  return Object.fromEntries(names.filter((name) => name in fields).map((name) => [name, fields[name]]));
}

/** What the core is asked before a fact or a description is kept. */
export const checkOf = (kind, fields, isNew) => ['check', { kind_name: kind, fields, new: isNew }];

async function check(kind, fields, isNew) {
  const { answer, problems } = await call(...checkOf(kind, fields, isNew));
  if (problems) throw new BadRecord(await problemsInWords(problems), problems);
  // what only owners may write is no helper's to state, not even as a default
  return seenBy(recall('sync')?.role, { kind, fields: answer });
}

async function keep(parts, drop = [], also = {}) {
  let clock;
  const made = parts.map((part) => {
    const next = nextStamp(clock);
    clock = next.clock;
    return { id: newId(), ...part, at: next.at, stamp: next.stamp, schema: schema() };
  });
  await keepChanges(made, clock, drop, also);
  askToPersist();
  return made.map((change) => change.id);
}
