// @ts-check
/* When exchanges happen, in one window at a time, and what is said of them. */
import { coreVersion } from '../core/core-client.js';
import { clockOff } from './clock.js';
import { breakOff, exchangeAll, Refused } from './exchange.js';
import { catchUp } from './stock.js';
import { subscribe } from './store/following.js';
import { recall, remember } from './store/remembered.js';
import { invented } from './store/which.js';

const AFTER_WRITE_MS = 200;
const EVERY_MS = 30000;
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 120000;
// a reply that is waited for so long may have been asked for without a signal
const SLOW_MS = 10000;
const ALARM_MS = 15 * 60 * 1000;

/** @type {number | undefined} */
let timer;
let waitMs = FIRST_WAIT_MS;
/** @type {Promise<void> | null} */
let running = null;
/** @type {Set<() => void>} */
const listeners = new Set();

/** Exchange now and whenever there is reason to; does nothing until the phone is paired. */
export function startSync() {
  subscribe((made) => {
    // what another window or the server brought is no reason to send
    if (made) soon(AFTER_WRITE_MS);
  });
  // what was asked for before the signal went would be waited for in vain
  addEventListener('online', () => {
    breakOff(0);
    syncSoon();
  });
  addEventListener('pageshow', syncSoon);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') syncSoon();
  });
  soon(0);
}

/** Exchange at once, as there may be a signal again: where there is none yet it is tried again after seconds
    and not after minutes, however often it failed before. */
export function syncSoon() {
  waitMs = FIRST_WAIT_MS;
  breakOff(SLOW_MS);
  // what is under way may have begun without a signal
  if (running) running.then(() => soon(0));
  else soon(0);
}

/** @param {number} ms */
function soon(ms) {
  clearTimeout(timer);
  timer = setTimeout(syncNow, ms);
}

/** Exchange until nothing is left to send or take in; resolves when done or given up for now. */
export function syncNow() {
  running ??= untilDone().finally(() => {
    running = null;
    listeners.forEach((listener) => listener());
  });
  return running;
}

async function untilDone() {
  if (invented || !recall('sync') || recall('stopped')) return;
  await coreVersion;
  const mine = await navigator.locks.request('boltfair-sync', { ifAvailable: true }, (lock) => lock && exchange());
  if (!mine) soon(FIRST_WAIT_MS);
}

async function exchange() {
  try {
    await exchangeAll();
    catchUp().catch(() => {});
    remember('trouble', null);
    waitMs = FIRST_WAIT_MS;
    soon(EVERY_MS);
  } catch (error) {
    const why = await stillUnpaired(error);
    if (why) giveUpForNow(why);
    else soon(0);
  }
  return true;
}

// a phone killed soon after its pairing has lost the cookie: null once it is paired again, else why not
/** @param {any} error */
async function stillUnpaired(error) {
  if (error.status !== 401 || !recall('again')) return error;
  try {
    const { pairAgain } = await import('./pairing.js');
    await pairAgain();
    return null;
  } catch (/** @type {any} */ other) {
    if (!(other instanceof Refused) || other.status >= 500) return other;
    remember('again', null);
    return error;
  }
}

// nothing is lost by any of these: all stays on the phone
/** @param {any} error */
function giveUpForNow(error) {
  if (error instanceof Refused) remember('trouble', error.message);
  if (error.status === 401) remember('stopped', 'unpaired');
  else if (error.title === 'Revoked') remember('stopped', 'revoked');
  else {
    soon(waitMs * (0.5 + Math.random()));
    waitMs = Math.min(waitMs * 2, LONGEST_WAIT_MS);
  }
}

/** How the exchange stands: {paired, role, name, last, trouble, stopped, late, clockOff}. */
export function standing() {
  const { last = null } = recall('exchanged', {});
  return {
    ...recall('sync', {}),
    paired: recall('sync') !== null,
    last,
    trouble: recall('trouble'),
    stopped: recall('stopped'),
    late: navigator.onLine && last !== null && Date.now() - last > ALARM_MS,
    clockOff: clockOff() !== 0,
  };
}

/** Be told when an exchange was made or given up; returns the way to stop.
    @param {() => void} listener */
export function onExchange(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
