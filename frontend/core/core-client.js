// @ts-check
/* The page's side of the core worker: `call(method, args)`, and what is foreseen of it. */

const HUNG_AFTER_MS = 20000;

// the page starts it before anything else, so that the core loads meanwhile
let worker = self.coreWorker;
let lastId = 0;
/** @type {Map<number, {resolve: (reply: FromWorker) => void, reject: (error: Error) => void, timer: number}>} */
const waiting = new Map();
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
    const timer = setTimeout(restart, HUNG_AFTER_MS);
    waiting.set(id, { resolve, reject, timer });
    worker.postMessage({ id, text });
  });
}

/** @param {{data: FromWorker}} message */
function settle({ data }) {
  if (data.id === lastForeseen) foreseen = new Map(data.ahead);
  const asked = waiting.get(data.id);
  if (!asked) return;
  waiting.delete(data.id);
  clearTimeout(asked.timer);
  if (data.failed) asked.reject(new Error(data.failed));
  else asked.resolve(data);
}

// only a hung worker is ended; what it owed is refused, so that the screen can ask again
function restart() {
  worker.terminate();
  for (const { reject, timer } of waiting.values()) {
    clearTimeout(timer);
    reject(new Error('the calculation hung and was started again'));
  }
  waiting.clear();
  worker = self.startCore();
  worker.onmessage = settle;
}
