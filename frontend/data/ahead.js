/* What owners look at takes long to add up the first time. It is added up ahead, a day at a time, while nobody asks for
   anything, so that who opens Review finds it there. */
import { isFree } from '../core/core-client.js';
import { keepBooks } from './books.js';
import { everTold } from './days-sold.js';
import { isWaitedFor } from './kept-answers.js';
import { soldAhead } from './next-market.js';
import { mayKnow, onRecords } from './records.js';
import { invented } from './store/which.js';

// who put the phone down for so long may be spared a moment
const QUIET_MS = 5000;
// where nothing was ever added up, as after a first pull, whoever opens Review next would wait for all of it
const QUIET_AT_FIRST_MS = 1000;
// who sells, or will in a moment, has no time to wait for it
const AT_THE_STALL = '/sell';

let touchedAt = performance.now();
let timer;
let running = false;

/** Add up ahead, from now on, whenever something came and the phone is left in peace. */
export function startAhead() {
  for (const kind of ['pointerdown', 'keydown', 'pageshow']) {
    addEventListener(kind, () => {
      touchedAt = performance.now();
    });
  }
  onRecords(soon);
  soon();
}

function soon() {
  clearTimeout(timer);
  if (mayKnow('purchase')) timer = setTimeout(goOn, quietMs());
}

const quietMs = () => (everTold() ? QUIET_MS : QUIET_AT_FIRST_MS);
const isSelling = () => !invented && location.pathname.startsWith(AT_THE_STALL);
const isWanted = () => isFree() && !isWaitedFor() && !document.hidden && performance.now() - touchedAt >= quietMs() && !isSelling();

async function goOn() {
  if (running) return;
  let left = false;
  const stopped = () => {
    left ||= !isWanted() || !mayKnow('purchase');
    return left;
  };
  running = true;
  if (!stopped()) {
    await keepBooks(stopped);
    if (!stopped()) await soldAhead(stopped);
  }
  running = false;
  // it goes on where it was left
  if (left) soon();
}
