// @ts-check
/* The page's side of the core worker: `call(method, args)`, and what is foreseen of it. */

// a slow line takes minutes to bring the core; one answer, on a busy phone, some seconds
const STARTS_WITHIN_MS = 180000;
const HUNG_AFTER_MS = 60000;

/** Thrown, in words, where the core itself failed. */
export class CoreFailed extends Error {}

// the page starts it before anything else, so that the core loads meanwhile
let worker = self.coreWorker;
let lastId = 0;
/** @type {Map<number, {resolve: (reply: FromWorker) => void, reject: (error: Error) => void}>} */
const waiting = new Map();
let isUp = false;
/** @type {number | undefined} */
let watch;
// what the core answered to what was foreseen, by the question's text
/** @type {Map<string, string>} */
let foreseen = new Map();
/** @type {number | null} */
let lastForeseen = null;
worker.onmessage = settle;

/** The version of the core that the worker loaded; rejects if it could not start. */
export const coreVersion = ask().then((reply) => reply.version);
coreVersion.catch(() => {}); // who needs it hears of it

/** Ask the core. Resolves to {answer} or {problems}; rejects only if the core itself failed.
    @param {string} method
    @param {object} args
    @returns {Promise<CoreReply>} */
export async function call(method, args = {}) {
  const text = textOf(method, args);
  return JSON.parse(foreseen.get(text) ?? (await ask(text)).text ?? '');
}

/** The same, and how long it took the core itself, however long it was waited for: {reply, took: ms}.
    @param {string} method
    @param {object} args
    @returns {Promise<{reply: CoreReply, took: number}>} */
export async function timedCall(method, args) {
  const { text = '', took = 0 } = await ask(textOf(method, args));
  return { reply: JSON.parse(text), took };
}

/** Whether nobody waits for an answer. */
export const isFree = () => waiting.size === 0;

/** Ask ahead what is likely to be asked next: [[method, args]]. A call waits for one of them at most, and what
    is foreseen next takes their place. All in one message, as each costs the page about what an answer costs the core.
    @param {Question[]} questions */
export function foresee(questions) {
  foreseen = new Map();
  lastId += 1;
  lastForeseen = lastId;
  worker.postMessage({ id: lastId, ahead: questions.map((question) => textOf(...question)) });
}

/** @type {(...question: Question) => string} */
const textOf = (method, args = {}) => JSON.stringify({ method, args });

/** @param {string} [text]
    @returns {Promise<FromWorker>} */
function ask(text) {
  lastId += 1;
  const id = lastId;
  return new Promise((resolve, reject) => {
    waiting.set(id, { resolve, reject });
    if (watch === undefined) watchOver();
    worker.postMessage({ id, text });
  });
}

// as long as it answers at all, however many wait, it is not hung
function watchOver() {
  clearTimeout(watch);
  watch = waiting.size ? setTimeout(restart, isUp ? HUNG_AFTER_MS : STARTS_WITHIN_MS) : undefined;
}

/** @param {{data: FromWorker}} message */
function settle({ data }) {
  isUp = true;
  if (data.id === lastForeseen) foreseen = new Map(data.ahead);
  const asked = waiting.get(data.id);
  waiting.delete(data.id);
  watchOver();
  if (!asked) return;
  if (data.failed) asked.reject(new CoreFailed(data.failed));
  else asked.resolve(data);
}

// only a hung worker is ended; what it owed is refused, so that the screen can ask again
function restart() {
  worker.terminate();
  const why = isUp ? 'the calculation hung and was started again' : 'what it calculates with could not be loaded; is the line too slow?';
  for (const { reject } of waiting.values()) reject(new CoreFailed(why));
  waiting.clear();
  watch = undefined;
  isUp = false;
  worker = self.startCore();
  worker.onmessage = settle;
}
