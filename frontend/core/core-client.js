/* The page's side of the core worker: `call(method, args)` and nothing else. */

const HUNG_AFTER_MS = 20000;

let worker = null;
let lastId = 0;
const waiting = new Map();
const versionKnown = deferred();

/** The version of the core that the worker loaded; rejects if it could not start. */
export const coreVersion = versionKnown.promise;

/** Start the worker, so that it loads while the page paints. */
export function startCore() {
  worker = new Worker('/core/core-worker.js', { type: 'module', name: 'core' });
  worker.onmessage = ({ data }) => ('id' in data ? settle(data) : started(data));
  worker.onerror = (event) => versionKnown.reject(new Error(event.message || 'the core could not start'));
}

function started({ version, failed }) {
  if (failed) versionKnown.reject(new Error(failed));
  else versionKnown.resolve(version);
}

function settle({ id, text, failed }) {
  const asked = waiting.get(id);
  if (!asked) return;
  waiting.delete(id);
  clearTimeout(asked.timer);
  if (failed) asked.reject(new Error(failed));
  else asked.resolve(JSON.parse(text));
}

/** Ask the core. Resolves to {answer} or {problems}; rejects only if the core itself failed. */
export function call(method, args = {}) {
  if (!worker) startCore();
  lastId += 1;
  const id = lastId;
  return new Promise((resolve, reject) => {
    const timer = setTimeout(restart, HUNG_AFTER_MS);
    waiting.set(id, { resolve, reject, timer });
    worker.postMessage({ id, text: JSON.stringify({ method, args }) });
  });
}

// only a hung worker is ended; what it owed is refused, so that the screen can ask again
function restart() {
  worker.terminate();
  for (const { reject, timer } of waiting.values()) {
    clearTimeout(timer);
    reject(new Error('the calculation hung and was started again'));
  }
  waiting.clear();
  startCore();
}

function deferred() {
  const parts = {};
  parts.promise = new Promise((resolve, reject) => Object.assign(parts, { resolve, reject }));
  return parts;
}
