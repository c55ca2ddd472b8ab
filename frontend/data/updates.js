/* Installing and updating: a new version takes over only when the person agrees. */
import { coreVersion } from '../core/core-client.js';
import { settled } from './store/remembered.js';

const LOOK_AGAIN_MS = 60 * 60 * 1000;

let ready = null;
let offline = 'not yet';
const listeners = new Set();

/** Register the service worker and mark the page once all is stored for offline; the first one
    takes the page over, too. */
export async function startUpdates() {
  if (!('serviceWorker' in navigator)) {
    becomes('never');
    return;
  }
  let controlled = Boolean(navigator.serviceWorker.controller);
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    // the first worker's arrival changes nothing; a later one is another version
    if (controlled) reloadWhenSafe();
    controlled = true;
  });
  const registration = await registered();
  if (!registration) return;
  const claimed = registration.active ? null : nextController();
  watch(registration);
  await Promise.all([navigator.serviceWorker.ready, claimed, sameVersion()]);
  document.documentElement.dataset.offlineReady = '';
  becomes('ready');
}

// null where a browser refuses, for a certificate that it does not trust, and where the signal is gone
async function registered() {
  try {
    return await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' });
  } catch ({ name }) {
    if (name === 'SecurityError') becomes('not trusted');
    return null;
  }
}

function becomes(state) {
  offline = state;
  listeners.forEach((listener) => listener());
}

/** Whether the app opens without a signal: "ready", "not yet", "not trusted" as its address is, or "never" in this browser. */
export const offlineState = () => offline;

function nextController() {
  return new Promise((resolve) => {
    navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true });
  });
}

/** True while a new version waits to be used. */
export function updateReady() {
  return ready !== null;
}

/** Let the waiting version take over; every open window reloads when its writes have ended. */
export function useUpdate() {
  ready?.postMessage('take over');
}

/** Be told when a new version waits, and when the app opens without a signal; returns the way to stop. */
export function onUpdate(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function watch(registration) {
  const look = () => {
    // a first install also passes through "waiting", with nobody to take over from
    if (registration.waiting && registration.active) {
      ready = registration.waiting;
      listeners.forEach((listener) => listener());
    }
  };
  const follow = () => registration.installing?.addEventListener('statechange', look);
  registration.addEventListener('updatefound', follow);
  // on a slow start the browser may have found it before
  follow();
  look();
  const again = () => registration.update().catch(() => {}); // no signal is no error
  setInterval(again, LOOK_AGAIN_MS);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') again();
  });
}

async function reloadWhenSafe() {
  await settled();
  location.reload();
}

// the page and the core meet only if they are of one version
async function sameVersion() {
  const version = await coreVersion;
  const page = document.documentElement.dataset.version;
  if (version === page || sessionStorage.getItem('mended') === version) return;
  sessionStorage.setItem('mended', version);
  await reloadWhenSafe();
}
