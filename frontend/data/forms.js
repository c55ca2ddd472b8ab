/* Forms between visits: the texts typed last, their units, and what is passed on. */
import { call } from '../core/core-client.js';
import { asTyped, blank, calculatorNamed, foreseeFills } from './calculating.js';
import { firstUnit } from './preferences.js';
import { recall, rememberSoon } from './store/remembered.js';

const FIRST_ROWS = 2;
const blanks = new Map();

/** A form as left last time, or with its defaults: {typed, units, picked}. */
export async function openForm(calculator) {
  const unfilled = await loadBlank(calculator);
  const left = recall(formKey(calculator.name));
  if (left) return { ...left, typed: { ...unfilled.typed, ...left.typed } };
  const typed = { ...unfilled.typed };
  for (const field of calculator.inputs) {
    if (field.fewest) typed[field.name] = Array.from({ length: FIRST_ROWS }, () => unfilled.rows[field.name]);
  }
  return { units: {}, picked: {}, typed };
}

/** A calculator's blank form, once it has been opened: {typed, rows}. */
export function blankOf(calculator) {
  return blanks.get(calculator.name);
}

async function loadBlank(calculator) {
  const units = unitsOf(calculator, {}, {});
  blanks.set(calculator.name, await blank(calculator.name, units));
  return blankOf(calculator);
}

/** Keep a form as it stands, so that leaving or a killed app loses nothing, with the unit of each
    length: what fields start with may be another by then. */
export function rememberForm(name, left) {
  const typedIn = Object.entries(unitsOf(calculatorNamed(name), left.typed, left.units)).filter(([path]) => !path.startsWith('='));
  const form = { ...left, units: { ...Object.fromEntries(typedIn), ...left.units } };
  for (const saved of Object.values(form.picked)) {
    if (saved) rememberSoon(lastKey(name, saved.id), { typed: form.typed, units: form.units });
  }
  return rememberSoon(formKey(name), form);
}

/** What was typed last into some fields with this saved piece or cloth, and the units of
    a form once it is put there: {typed, units}. */
export function lastTypedWith(name, recordId, fields, units) {
  const last = recall(lastKey(name, recordId), { typed: {}, units: {} });
  const known = fields.filter((field) => field in last.typed);
  const isKnown = ([path]) => known.includes(path.split('.')[0]);
  const others = Object.entries(units).filter((entry) => !isKnown(entry));
  return {
    typed: Object.fromEntries(known.map((field) => [field, last.typed[field]])),
    units: Object.fromEntries([...others, ...Object.entries(last.units).filter(isKnown)]),
  };
}

const lastKey = (name, recordId) => `last:${name}:${recordId}`;

const formKey = (name) => `form:${name}`;

/** Put values in base units into a form before it is opened; the rest stays as it was left. */
export async function passOn(name, given, { rows = {}, picked = {} } = {}) {
  const calculator = calculatorNamed(name);
  let form = await openForm(calculator);
  const typed = await asTyped(name, given, unitsOf(calculator, form.typed, form.units));
  form = { ...form, typed: { ...form.typed, ...typed }, picked: { ...form.picked, ...picked } };
  for (const [list, givenRows] of Object.entries(rows)) {
    form = withRows(calculator, form, list, await typedRows(calculator, list, givenRows));
  }
  await rememberForm(name, form);
}

/** Rows in base units as typed into new rows of a list, folded shut; of one with an `id`, `record` says which it came from. */
export async function typedRows(calculator, list, givenRows) {
  const { [list]: made } = await asTyped(calculator.name, { [list]: givenRows }, unitsOf(calculator, {}, {}));
  return made.map((row, index) => ({ ...blankOf(calculator).rows[list], ...row, folded: true, record: givenRows[index].id }));
}

/** A form with typed rows put into a list; of two of the same name the old one gives way. */
export function withRows(calculator, form, list, made) {
  const rows = withoutBlankRows(calculator, form.typed)[list];
  let { units } = form;
  for (const row of made) {
    const name = row.name || firstFree(list.slice(0, -1), rows);
    const same = rows.findIndex((old) => old.name === name);
    const at = same < 0 ? rows.length : same;
    rows[at] = { ...row, name };
    // it was written in the units that a new row shows
    units = Object.fromEntries(Object.entries(units).filter(([path]) => !path.startsWith(`${list}.${at}.`)));
  }
  return { ...form, typed: { ...form.typed, [list]: rows }, units };
}

// a row that came without a name: nothing else would tell it from the next one
function firstFree(word, rows) {
  let number = rows.length + 1;
  while (rows.some((row) => row.name === `${word} ${number}`)) number += 1;
  return `${word} ${number}`;
}

/** Every unit shown in a form, by path; outputs under `=name`. */
export function unitsOf(calculator, typed, chosen) {
  const units = {};
  const add = (field, path) => {
    if (isLength(field)) units[path] = shownUnit(field, path, chosen);
  };
  for (const field of calculator.inputs) {
    add(field, field.name);
    (typed[field.name]?.forEach ? typed[field.name] : []).forEach((_, row) => {
      field.fields.forEach((inner) => add(inner, `${field.name}.${row}.${inner.name}`));
    });
    // a blank row is written in the units a new row shows
    for (const inner of field.fields ?? []) {
      if (isLength(inner)) units[inner.name] ??= firstUnit(inner);
    }
  }
  for (const field of calculator.outputs) {
    add(field, `=${field.name}`);
    field.fields?.forEach((inner) => add(inner, `=${inner.name}`));
  }
  return units;
}

/** The unit a field shows: the one chosen for it, or the first of this phone's measure. */
export function shownUnit(field, path, chosen) {
  return chosen[path] ?? firstUnit(field);
}

// a length with fixed choices is picked, not typed, and has no unit to change
function isLength(field) {
  return field.quantity === 'length' && !field.choices;
}

/** Typed values without the untouched rows at the end of a list. */
export function withoutBlankRows(calculator, typed) {
  const kept = { ...typed };
  for (const [list, blank] of Object.entries(blankOf(calculator)?.rows ?? {})) {
    const rows = [...(kept[list] ?? [])];
    while (rows.length && sameRow(rows.at(-1), blank)) rows.pop();
    kept[list] = rows;
  }
  return kept;
}

function sameRow(row, blank) {
  return Object.keys(blank).every((name) => textOf(row[name]) === textOf(blank[name]));
}

/** What a field shows of what is typed in it: its text, also where the length is not quite what that says: {text, mm}. */
export const textOf = (typed) => typed?.text ?? typed ?? '';

/** What is typed at a path of a form's fields. */
export const typedAt = (typed, path) => path.split('.').reduce((inner, part) => inner?.[part], typed);

/** What is typed in a form, with another value at a path of its fields. */
export const placed = (typed, path, value) => placedIn(typed, path.split('.'), value);

function placedIn(holder, [first, ...rest], value) {
  const copy = Array.isArray(holder) ? [...holder] : { ...holder };
  copy[first] = rest.length ? placedIn(holder[first], rest, value) : value;
  return copy;
}

const DIGITS = [...'0123456789'];
const IS_NUMBER = /^\d[\d.,]*$/;

/** Have the core work out ahead what the next key in a field of a form will be answered by: a digit more, or one mark less. */
export function foreseeKeys(calculator, { typed, units }, path) {
  const text = typedAt(typed, path);
  if (typeof text !== 'string' || !IS_NUMBER.test(text)) return;
  const next = [text.slice(0, -1), ...DIGITS.map((digit) => text + digit)].map((value) => placed(typed, path, value));
  foreseeFills(
    calculator.name,
    next.map((form) => [withoutBlankRows(calculator, form), unitsOf(calculator, form, units)]),
  );
}

/** What a field holds once it changes its unit: its length rewritten, as the field rounds. `typedAt` tells what is typed at a
    path; what is typed meanwhile stays, as it is meant in the unit that is shown. */
export async function rewritten(typedAt, path, field, from, to) {
  const before = typedAt(path);
  const written = before && !field.keeps_number ? await convertLength(before, field, from, to) : before;
  return typedAt(path) === before ? written : typedAt(path);
}

async function convertLength(typed, field, unit, to) {
  return (await call('convert', { text: textOf(typed), exact: typed?.mm, unit, to, rounding: field.rounded })).answer;
}

/** The next eighth above or below what is typed. */
export async function nextEighth(typed, up) {
  return (await call('next_eighth', { text: textOf(typed), up })).answer;
}
