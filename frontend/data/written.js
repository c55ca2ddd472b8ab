// @ts-check
/* Words that a start writes in the phone's language. The first number or date that a browser writes takes it as long as the
   rest of a screen: what the last starts wrote is remembered, and the same is written again without asking. */
import { painted, recall, remember } from './store.js';

const SLOT = 'written';
// what some screens say
const MOST = 300;
// another language or another version of the browser may write otherwise
const by = `${navigator.languages} ${navigator.userAgent}`;

/** @type {Map<string, string> | null} */
let known = null;
let isKept = true;
let isOver = false;

/** The words that `make` writes, of which `key` says all that they are made of.
    @param {string} key
    @param {() => string} make */
export function written(key, make) {
  if (isOver) return make();
  known ??= new Map(recall(SLOT)?.by === by ? recall(SLOT).words : []);
  const words = known.get(key) ?? make();
  if (!known.has(key)) keepSoon();
  // those written last are kept
  known.delete(key);
  known.set(key, words);
  return words;
}

async function keepSoon() {
  if (!isKept) return;
  isKept = false;
  await painted();
  isKept = true;
  // where there is no room for it the next start makes it anew
  if (known) await remember(SLOT, { by, words: [...known].slice(-MOST) }).catch(() => {});
}

/** From now on everything is written anew. */
export function startIsOver() {
  isOver = true;
  known = null;
}
