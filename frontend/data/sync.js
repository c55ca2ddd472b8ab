/* When exchanges happen, in one window at a time, and what is said of them. */
import { coreVersion } from '../core/core-client.js';
import { CLOCK_OFF_MS } from './clock.js';
import { exchangeAll, Refused } from './exchange.js';
import { catchUp } from './stock.js';
import { recall, remember, subscribe } from './store.js';

const AFTER_WRITE_MS = 200;
const EVERY_MS = 30000;
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 120000;
const ALARM_MS = 15 * 60 * 1000;

let timer = null;
let waitMs = FIRST_WAIT_MS;
let running = null;
const listeners = new Set();

/** Exchange now and whenever there is reason to; does nothing until the phone is paired. */
export function startSync() {
  subscribe((made) => {
    // what another window or the server brought is no reason to send
    if (made) soon(AFTER_WRITE_MS);
  });
  addEventListener('online', () => soon(0));
  addEventListener('pageshow', () => soon(0));
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') soon(0);
  });
  soon(0);
}

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
  if (!recall('sync') || recall('stopped')) return;
  await coreVersion;
  const mine = await navigator.locks.request('boltfair-sync', { ifAvailable: true }, (lock) => lock && exchange());
  if (!mine) soon(FIRST_WAIT_MS);
}

async function exchange() {
  try {
    await exchangeAll();
    catchUp();
    remember('trouble', null);
    waitMs = FIRST_WAIT_MS;
    soon(EVERY_MS);
  } catch (error) {
    giveUpForNow(error);
  }
  return true;
}

// nothing is lost by any of these: all stays on the phone
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
  const { last = null, offset = 0 } = recall('exchanged', {});
  return {
    ...recall('sync', {}),
    paired: recall('sync') !== null,
    last,
    trouble: recall('trouble'),
    stopped: recall('stopped'),
    late: navigator.onLine && last !== null && Date.now() - last > ALARM_MS,
    clockOff: Math.abs(offset) > CLOCK_OFF_MS,
  };
}

/** Be told when an exchange was made or given up; returns the way to stop. */
export function onExchange(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
