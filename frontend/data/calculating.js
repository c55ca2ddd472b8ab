/* Asking the core, in the currency and units of this phone. */
import { call, foresee } from '../core/core-client.js';
import { askOnce, declared, kindNamed } from './asking.js';
import { currency, firstUnit } from './preferences.js';

export { declared, kindNamed, loadDeclared } from './asking.js';

/** One calculator's declaration. */
export function calculatorNamed(name) {
  return declared().calculators.find((calculator) => calculator.name === name);
}

/** What each of a calculator's inputs is where it is not given. */
export function defaultsOf(calculator) {
  return Object.fromEntries(calculator.inputs.map((field) => [field.name, field.default]));
}

/** Those of some values that declared fields are there for. */
export function valuesFor(fields, values) {
  return Object.fromEntries(fields.filter(({ name }) => values[name] !== undefined).map(({ name }) => [name, values[name]]));
}

/** Answer a form as typed: {input, result, notes, shown, problems}. */
export function fill(name, typed, units) {
  return askOnce(`fill:${name}`, 'fill', filled(name, typed, units));
}

/** Have the core work out ahead how a form may be answered next: [[typed, units]]. */
export const foreseeFills = (name, forms) => foresee(forms.map(([typed, units]) => ['fill', filled(name, typed, units)]));

const filled = (name, typed, units) => ({ name, typed, units, currency: currency() });

/** A form with nothing typed: {typed, rows}, in the units shown. */
export function blank(name, units) {
  return askOnce(`blank:${name}`, 'blank', { name, units, currency: currency() });
}

/** Ask a calculator with values in base units: {result, notes}, or null if they are bad. */
export async function answer(name, given) {
  return (await call('answer', { name, given })).answer ?? null;
}

/** Explain one output: {words, numbers, equals, matters}. */
export async function why(name, typed, units, output) {
  return (await call('why', { name, typed, units, currency: currency(), output })).answer;
}

/** Write values in base units as they would be typed. */
export async function asTyped(name, given, units) {
  return (await call('show_inputs', { name, given, units, currency: currency() })).answer;
}

/** Read an amount as typed: {amount, problem}. */
export async function readMoney(text) {
  return (await call('read_money', { text, currency: currency() })).answer;
}

/** Lengths in words, in this phone's measure. */
export function lengthsInWords(lengths, unit) {
  return askOnce('lengths', 'lengths_in_words', { lengths, unit: firstUnit({ unit }) });
}

/** What the core refused, in words, in this phone's measure and currency. */
export async function problemsInWords(problems) {
  return (await call('problems_in_words', { problems, unit: firstUnit({ unit: 'mm' }), currency: currency() })).answer;
}

/** What the core noted, each in words. */
export const notesInWords = (notes) => Promise.all(notes.map((note) => problemsInWords([note])));

/** A record's fields in words, in this phone's measure and currency. */
export async function recordInWords(kind, record) {
  const units = Object.fromEntries(
    kindNamed(kind)
      .fields.filter((field) => field.quantity === 'length')
      .map((field) => [field.name, firstUnit(field)]),
  );
  return (await call('record_in_words', { kind_name: kind, fields: record, units, currency: currency() })).answer;
}

/** The rules by which a market may recur whose first day this is: [{rule, words}]. */
export async function recurrences(day) {
  return (await call('recurrences', { day })).answer ?? [];
}

/** The next days of a rule, from a day on. */
export async function nextDays(rule, day, after, most) {
  return (await call('next_days', { rule, day, after, most })).answer ?? [];
}
