// @ts-check
/* Asking the core, and remembering what it answered last; what it declares. */
import { call, timedCall } from '../core/core-client.js';
import { recall, rememberSoon } from './store/remembered.js';

/** @type {any} */
let described = null;
/** @type {Map<string, any>} */
let kinds = new Map();

const DECLARED = 'describe';
const version = document.documentElement.dataset.version;

/** Ask the core. Resolves to its answer; throws where it refuses the question.
    @param {string} method */
export async function ask(method, args = {}) {
  return answerOf(method, await call(method, args));
}

/** The same, and how long it took the core itself, however long it was waited for: {answer, took: ms}.
    @param {string} method */
export async function askTimed(method, args = {}) {
  const { reply, took } = await timedCall(method, args);
  return { answer: answerOf(method, reply), took };
}

/** @param {string} method
    @param {CoreReply} reply */
function answerOf(method, { answer, problems }) {
  if (problems) throw new Error(`This cannot be worked out: ${method}, ${problems[0].field}: ${problems[0].rule}`);
  return answer;
}

/** Ask the core what it may have been asked here before. The same question to the same
    version has the same answer, so a start need not wait for the core.
    @param {string} slot
    @param {string} method */
export async function askOnce(slot, method, args = {}) {
  const key = `answer:${slot}`;
  const asked = JSON.stringify(args);
  const last = recall(key);
  if (last?.version === version && last.asked === asked) return last.answer;
  const answer = await ask(method, args);
  rememberSoon(key, { version, asked, answer });
  return answer;
}

/** What a store is to remember so that its first start need not wait for what is declared: {key: value}. */
export const rememberedDeclared = () => ({ [`answer:${DECLARED}`]: recall(`answer:${DECLARED}`) });

/** Load everything declared: calculators, kinds of record, units, currencies. */
export async function loadDeclared() {
  described = await askOnce(DECLARED, 'describe');
  kinds = new Map(described.kinds.map((/** @type {any} */ kind) => [kind.name, kind]));
}

/** The declarations once loaded; null before. */
export function declared() {
  return described;
}

/** The declaration of a kind's field, or by further names of one in the rows of it.
    @param {string} kind
    @param {string[]} names */
export const fieldOf = (kind, ...names) =>
  names.reduce((within, name) => within.fields.find((/** @type {any} */ field) => field.name === name), kindNamed(kind));

/** The kinds of fact by which one of a kind is said never to have happened, by a link of theirs to it.
    @param {string} name */
export const kindsVoiding = (name) => [...kinds.values()].filter(({ name: kind, voids }) => voids && fieldOf(kind, voids).links === name);

/** One kind of record's declaration; undefined for one of a newer version.
    @param {string} name */
export function kindNamed(name) {
  return kinds.get(name);
}
