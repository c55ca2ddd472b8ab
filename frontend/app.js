/* Start here: open what is kept, start the core, show the screen asked for. */
import { render } from 'preact';
import { html } from 'htm/preact';
import { CoreFailed } from './core/core-client.js';
import { loadDeclared } from './data/calculating.js';
import { openRecords } from './data/records.js';
import { lastScreen } from './data/preferences.js';
import { painted } from './data/painted.js';
import { dropInvented } from './data/store/invented-year.js';
import { openStore } from './data/store/opening.js';
import { packOutbox } from './data/store/own-changes.js';
import { invented } from './data/store/which.js';
import { NotKept } from './data/store/writing.js';
import { startIsOver } from './data/written.js';
import { Frame } from './views/frame.js';
import { readyToShow } from './views/parts/money.js';
import { say } from './views/parts/notice.js';
import { loadAtTouch, loadScreen, loadScreensBeside } from './views/screens.js';
import { NotSecure, Trouble } from './views/parts/trouble.js';

const root = document.getElementById('app');

async function start() {
  // a link that pairs is about her own records
  if (invented && location.hash.startsWith('#pair=')) {
    await dropInvented();
    location.reload();
    await new Promise(() => {});
  }
  // the app's own address opens where it was left
  if (location.pathname === '/') history.replaceState(null, '', lastScreen());
  const [wasLost] = await Promise.all([openKept(), loadScreen(location.pathname)]);
  root.replaceChildren();
  render(html`<${Frame} />`, root);
  await painted();
  if (wasLost) say('The phone had closed its storage; it is open again. What you typed is here: see whether your last tap was recorded.');
  loadAtTouch();
}

// what the first paint need not wait for; what a lost signal kept away on a first visit comes with the next one
async function startTheRest() {
  const rest = await Promise.all([import('./data/sync.js'), import('./data/updates.js'), import('./data/ahead.js')]).catch(() => null);
  if (!rest) {
    addEventListener('online', startTheRest, { once: true });
    return;
  }
  const [{ startSync }, { startUpdates }, { startAhead }] = rest;
  startSync();
  await startUpdates();
  await packOutbox();
  startAhead();
  // what fails is told where it is shown
  await loadScreensBeside(location.pathname).catch(() => {});
  startIsOver();
  readyToShow();
}

async function openKept() {
  const wasLost = await openStore();
  await Promise.all([loadDeclared(), openRecords()]);
  return wasLost;
}

// a browser may offer to install before the screen that says so is open
addEventListener('beforeinstallprompt', (event) => {
  event.preventDefault();
  self.installOffer = event;
  dispatchEvent(new Event('installoffer'));
});

// what could not be kept, or worked out, and nobody on the screen waits for is said at once, too
addEventListener('unhandledrejection', (event) => {
  if (!(event.reason instanceof NotKept || event.reason instanceof CoreFailed)) return;
  event.preventDefault();
  say(event.reason.message, { bad: true });
});

if (isSecureContext) start().then(startTheRest, (error) => render(html`<${Trouble} error=${error} />`, root));
else render(html`<${NotSecure} />`, root);
