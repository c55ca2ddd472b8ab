// @ts-check
/* Runs backend/core under MicroPython. One JSON string comes in, one goes out. */

const HEAP_BYTES = 8 * 1024 * 1024;
// with the runtime's own 16 KB nearly every answer would clean the heap up, and wait for that
const CLEAN_UP_AFTER_BYTES = 3 * 1024 * 1024;

async function start() {
  const [python, core] = await Promise.all([
    import('/vendor/micropython/micropython.mjs').then((runtime) => runtime.loadMicroPython({ heapsize: HEAP_BYTES })),
    fetch('/core.json').then(/** @returns {Promise<CoreSources>} */ (reply) => reply.json()),
  ]);
  for (const [path, source] of Object.entries(core.files)) {
    makeFolders(python.FS, `/lib/${path}`);
    python.FS.writeFile(`/lib/${path}`, source);
  }
  python.runPython(`import gc, sys\ngc.threshold(${CLEAN_UP_AFTER_BYTES})\nsys.path.append('/lib')\nfrom core import bridge`);
  return { call: python.globals.get('bridge').call, version: core.version };
}

/** @param {import('/vendor/micropython/micropython.mjs').MicroPython['FS']} files
    @param {string} path */
function makeFolders(files, path) {
  const parts = path.split('/').slice(1, -1);
  for (let depth = 1; depth <= parts.length; depth += 1) {
    const folder = `/${parts.slice(0, depth).join('/')}`;
    if (!files.analyzePath(folder).exists) files.mkdir(folder);
  }
}

const started = start();
started.catch(() => {}); // each who asks hears of it

// what was asked ahead last
/** @type {number | null} */
let latest = null;

/** @param {number} id
    @param {string[]} texts
    @param {(text: string) => string} call */
async function answerAhead(id, texts, call) {
  latest = id;
  const answered = [];
  for (const text of texts) {
    // what was asked meanwhile goes first
    await nextTurn();
    if (latest !== id) return;
    answered.push([text, call(text)]);
  }
  postMessage({ id, ahead: answered });
}

const { port1, port2 } = new MessageChannel();

function nextTurn() {
  return new Promise((resolve) => {
    port1.onmessage = resolve;
    port2.postMessage(null);
  });
}

/** @param {string} text
    @param {(text: string) => string} call */
function timed(text, call) {
  const began = performance.now();
  return { text: call(text), took: performance.now() - began };
}

// a message without text asks only whether the core is up
self.onmessage = async ({ data: { id, text, ahead } }) => {
  try {
    const { call, version } = await started;
    if (ahead) await answerAhead(id, ahead, call);
    else postMessage(text === undefined ? { id, version } : { id, ...timed(text, call) });
  } catch (error) {
    postMessage({ id, failed: String(error) });
  }
};
