/* Forms of records: as kept, blank, and read back by the core. */
import { call } from '../core/core-client.js';
import { currency, firstUnit } from './preferences.js';
import { recall } from './store/remembered.js';

/** The fields of a kind that this phone's role sees, but the mark of being put away. */
export function fieldsOf(kind) {
  const hidden = kind.hidden[recall('sync')?.role] ?? [];
  return kind.fields.filter((field) => field.name !== 'archived' && !hidden.includes(field.name));
}

/** What this phone's role may do with a kind: "write", "make", "read" or "none". */
export function mayDo(kind) {
  return recall('sync')?.role === 'helper' ? kind.helper : 'write';
}

/** The units that a kind's lengths start in. */
export function unitsOfKind(kind) {
  return Object.fromEntries(kind.fields.filter((field) => field.quantity === 'length').map((field) => [field.name, firstUnit(field)]));
}

/** A record's texts; of {}, the defaults. */
export function typedRecord(kind, fields, units) {
  return ask('record_typed', { kind_name: kind.name, fields, units });
}

/** A new row of a list, defaults typed in. */
export function blankRow(kind, list, units) {
  return ask('blank_row', { kind_name: kind.name, list_name: list, units });
}

/** Read texts: {fields, problems}; fields is null while one is bad. */
export function readRecord(kind, typed, units) {
  return ask('record_read', { kind_name: kind.name, typed, units });
}

async function ask(method, args) {
  return (await call(method, { ...args, currency: currency() })).answer;
}
