/* Start here: open what is kept, start the core, show the screen asked for. */
import { render } from 'preact';
import { html } from 'htm/preact';
import { startCore } from './core/core-client.js';
import { describe } from './data/calculating.js';
import { openRecords } from './data/records.js';
import { NotKept, openStore } from './data/store.js';
import { startSync } from './data/sync.js';
import { startUpdates } from './data/updates.js';
import { Frame } from './views/frame.js';
import { say } from './views/parts/notice.js';
import { Trouble } from './views/parts/trouble.js';

const root = document.getElementById('app');

async function start() {
  startCore();
  await Promise.all([openStore(), describe()]);
  await openRecords();
  root.replaceChildren();
  render(html`<${Frame} />`, root);
  startSync();
  await startUpdates();
}

// what is remembered in the background and could not be kept is said at once, too
addEventListener('unhandledrejection', (event) => {
  if (!(event.reason instanceof NotKept)) return;
  event.preventDefault();
  say(event.reason.message, { bad: true });
});

start().catch((error) => render(html`<${Trouble} error=${error} />`, root));
