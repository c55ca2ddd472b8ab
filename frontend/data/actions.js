/* What a tap does: check with the core, then keep. Nothing is shown as kept before it is. */
import { call } from '../core/core-client.js';
import { newId, nextStamp } from './clock.js';
import { askToPersist } from './persistence.js';
import { keepChanges } from './store.js';

const SCHEMA = 1;

/** Thrown when the core finds a record's fields bad; `problems` as data. */
export class BadRecord extends Error {
  constructor(problems) {
    super(problems.map((problem) => `${problem.field}: ${problem.rule}`).join(', '));
    this.problems = problems;
  }
}

/** Keep a new description (piece, cloth, list-line); resolves to its id. */
export async function describeNew(kind, fields) {
  const checked = await check(kind, fields, true);
  const record = newId();
  await keep({ kind, fields: checked, record });
  return record;
}

/** Change some fields of a description. */
export async function edit(kind, record, fields) {
  await keep({ kind, fields: await check(kind, fields, false), record });
}

/** Put a description away; it can be brought back for a moment with `bringBack`. */
export const putAway = (kind, record) => edit(kind, record, { archived: true });
export const bringBack = (kind, record) => edit(kind, record, { archived: false });

/** Append a fact; resolves to its id. */
export async function state(kind, fields) {
  return keep({ kind, fields: await check(kind, fields, true) });
}

async function check(kind, fields, isNew) {
  const { answer, problems } = await call('check', { kind_name: kind, fields, new: isNew });
  if (problems) throw new BadRecord(problems);
  return answer;
}

async function keep(parts) {
  const id = newId();
  const { at, stamp, clock } = nextStamp();
  await keepChanges([{ id, ...parts, at, stamp, schema: SCHEMA }], clock);
  askToPersist();
  return id;
}
