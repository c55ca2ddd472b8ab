// @ts-check
/* Words that a start writes in the phone's language. The first number or date that a browser writes takes it as long as the
   rest of a screen: what the last starts wrote is kept, and the same is written again without asking. It goes with the log:
   where an owner's phone becomes a helper's, none of its amounts stays. */
import { painted } from './painted.js';
import { keepTotals, total } from './store/pulled.js';
import { recall } from './store/remembered.js';

const SLOT = 'written';
// what some screens say
const MOST = 300;
// another language, or another version of the browser or of the app, may write otherwise
const by = `${navigator.languages} ${navigator.userAgent} ${document.documentElement.dataset.version}`;

/** @type {Map<string, string> | null} */
let known = null;
/** @type {Standing} */
let stood;
let isKept = true;
let isOver = false;

/** The words that `make` writes, of which `key` says all that they are made of.
    @param {string} key
    @param {() => string} make */
export function written(key, make) {
  if (isOver) return make();
  known ??= before();
  const words = known.get(key) ?? make();
  if (!known.has(key)) keepSoon();
  // those written last are kept
  known.delete(key);
  known.set(key, words);
  return words;
}

/** @returns {Map<string, string>} */
function before() {
  stood = recall('sync') ?? {};
  const { held } = total(SLOT) ?? {};
  return new Map(held?.by === by ? held.words : []);
}

async function keepSoon() {
  if (!isKept) return;
  isKept = false;
  await painted();
  isKept = true;
  if (known) await keepTotals(stood, { [SLOT]: { held: { by, words: [...known].slice(-MOST) }, through: 0 } });
}

/** From now on everything is written anew. */
export function startIsOver() {
  isOver = true;
  known = null;
}
