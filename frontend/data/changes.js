// @ts-check
/* What a change is made of, and what of it travels. */
import { declared, kindNamed } from './asking.js';

/** The version of the records that this app makes. */
export const schema = () => declared().envelope.schema;

/** A change as it travels: what the phone notes beside it stays on the phone.
    @param {OwnChange} change
    @returns {Change} */
export function partsSent(change) {
  const parts = declared().envelope.parts.filter((/** @type {keyof Change} */ name) => change[name] !== undefined && change[name] !== null);
  return /** @type {Change} */ (Object.fromEntries(parts.map((/** @type {keyof Change} */ name) => [name, change[name]])));
}

/** The fields of a record that were changed: two people may change different ones at once.
    @param {Fields} before
    @param {Fields} fields
    @returns {Fields} */
export function changed(before, fields) {
  return Object.fromEntries(Object.entries(fields).filter(([name, value]) => JSON.stringify(value) !== JSON.stringify(before[name] ?? null)));
}

/** Whether a role may know of a kind of record at all.
    @param {Role | undefined} role
    @param {string} kind */
export const mayKnowOf = (role, kind) => role !== 'helper' || kindNamed(kind)?.helper !== 'none';

/** A change's fields as a role may see them.
    @param {Role | undefined} role
    @param {{kind: string, fields: Fields}} change
    @returns {Fields} */
export function seenBy(role, { kind, fields }) {
  /** @type {string[]} */
  const hidden = kindNamed(kind)?.hidden[role ?? ''] ?? [];
  return Object.fromEntries(Object.entries(fields).filter(([name]) => !hidden.includes(name)));
}
