/* The page's side of the core worker: `call(method, args)`, and what is foreseen of it. */

const HUNG_AFTER_MS = 20000;

// the page starts it before anything else, so that the core loads meanwhile
let worker = self.coreWorker;
let lastId = 0;
const waiting = new Map();
// what the core answers to what was foreseen, by the question's text
let foreseen = new Map();
let latest = null;
worker.onmessage = settle;

/** The version of the core that the worker loaded; rejects if it could not start. */
export const coreVersion = ask().then((reply) => reply.version);
coreVersion.catch(() => {}); // who needs it hears of it

/** Ask the core. Resolves to {answer} or {problems}; rejects only if the core itself failed. */
export async function call(method, args = {}) {
  const text = textOf(method, args);
  return JSON.parse((await (foreseen.get(text) ?? ask(text))).text);
}

/** Ask ahead what is likely to be asked next: [[method, args]], the likeliest first. Only while the core has
    nothing else to do, so that a call waits for one of them at most, and until something else is foreseen. */
export async function foresee(questions) {
  const mine = new Map();
  foreseen = mine;
  for (const text of questions.map((question) => textOf(...question))) {
    for (let seen = null; seen !== latest; await seen?.catch(() => {})) seen = latest;
    if (mine !== foreseen) return;
    const answer = ask(text);
    answer.catch(() => mine.delete(text));
    mine.set(text, answer);
  }
}

const textOf = (method, args) => JSON.stringify({ method, args });

function ask(text) {
  lastId += 1;
  const id = lastId;
  latest = new Promise((resolve, reject) => {
    const timer = setTimeout(restart, HUNG_AFTER_MS);
    waiting.set(id, { resolve, reject, timer });
    worker.postMessage({ id, text });
  });
  return latest;
}

function settle({ data }) {
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
