/* What a change is made of, and what of it travels. */
import { kindNamed } from './calculating.js';

/** The version of the records that this app makes. */
export const SCHEMA = 1;

/** A change as it travels: what the phone notes beside it stays on the phone. */
export function partsSent({ id, kind, record, fields, at, stamp, schema, replaces }) {
  return { id, kind, fields, at, stamp, schema, ...(record && { record }), ...(replaces && { replaces }) };
}

/** The fields of a record that were changed: two people may change different ones at once. */
export function changed(before, fields) {
  return Object.fromEntries(Object.entries(fields).filter(([name, value]) => JSON.stringify(value) !== JSON.stringify(before[name] ?? null)));
}

/** A change's fields as a role may see them. */
export function seenBy(role, { kind, fields }) {
  const hidden = kindNamed(kind)?.hidden[role] ?? [];
  return Object.fromEntries(Object.entries(fields).filter(([name]) => !hidden.includes(name)));
}
