// @ts-check
/* Getting the store back where the browser gives it to this page no more: WebKit does not, once the process that has
   its databases has ended. The page is loaded anew, and what could not be written comes along in the session. And giving
   it free in a page that is left. */

const NOT_WRITTEN = 'not-written';
// a page that loses the store again so soon after would be loaded for ever
const TOO_SOON_MS = 20000;
// what is tapped is remembered after its paint
const LAST_TAP_MS = 200;
const LONGEST_WAIT_MS = 5000;

let leaving = false;

/** Load the page anew, once it is seen; not again right after it was. Takes what could not be written by then.
    @param {Map<string, any>} unwritten */
export async function openAnew(unwritten) {
  if (leaving || (wasLoadedAnew() && performance.now() < TOO_SOON_MS)) return;
  leaving = true;
  await seen();
  await thereAgain();
  addEventListener('pagehide', () => carry(unwritten));
  location.reload();
}

/** Whether this page is one that was loaded anew, by this or by hand. */
function wasLoadedAnew() {
  const [how] = /** @type {PerformanceNavigationTiming[]} */ (performance.getEntriesByType('navigation'));
  return how?.type === 'reload';
}

// the process that loads pages may have ended with the databases: a page left then would lead to none
async function thereAgain() {
  for (let wait = LAST_TAP_MS; ; wait = Math.min(2 * wait, LONGEST_WAIT_MS)) {
    await new Promise((resolve) => setTimeout(resolve, wait));
    if (await mayBeLoaded().catch(() => false)) return;
  }
}

// by the service worker's registration, as what this page asks for may pass it by from now on
async function mayBeLoaded() {
  const registered = await navigator.serviceWorker?.getRegistration();
  return registered?.active || (await fetch('/', { signal: AbortSignal.timeout(LONGEST_WAIT_MS) })).ok;
}

// a page in the background gets its store back when it is looked at
function seen() {
  return new Promise((resolve) => {
    const look = () => document.visibilityState === 'visible' && resolve(null);
    document.addEventListener('visibilitychange', look);
    look();
  });
}

/** @param {Map<string, any>} unwritten */
function carry(unwritten) {
  sessionStorage.setItem(NOT_WRITTEN, JSON.stringify([...unwritten]));
}

/** What could not be written before the page was loaded anew, once: [[key, value]]; null after any other start.
    @returns {[string, any][] | null} */
export function takeCarried() {
  const text = sessionStorage.getItem(NOT_WRITTEN);
  sessionStorage.removeItem(NOT_WRITTEN);
  return text && JSON.parse(text);
}

// what is read or written just now
/** @type {Set<import('idb').IDBPTransaction<Kept, any, any>>} */
const running = new Set();

/** Know of a transaction until it ends.
    @param {import('idb').IDBPTransaction<Kept, any, any>} tx */
export function follow(tx) {
  running.add(tx);
  const ended = () => running.delete(tx);
  tx.done.then(ended, ended);
}

/** Give the store free in a page that the browser sets aside to go back to, and load it anew when it does: WebKit keeps
    what such a page was reading as it stands, and every later page would wait for that; nor does it hear of what they keep.
    @param {() => void} close */
export function giveFreeWhenLeft(close) {
  addEventListener('pagehide', ({ persisted }) => {
    if (!persisted) return;
    running.forEach(breakOff);
    close();
  });
  addEventListener('pageshow', ({ persisted }) => persisted && location.reload());
}

/** @param {import('idb').IDBPTransaction<Kept, any, any>} tx */
function breakOff(tx) {
  try {
    tx.abort();
  } catch {
    // all of it was asked for, and is on its way to the disk
  }
}
