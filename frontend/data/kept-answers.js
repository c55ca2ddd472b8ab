/* What the core worked out of many records, kept with what else is folded from the log until what it is made of changes. It
   goes with the log: where all is pulled anew, as in another role, nothing of it stays. */
import { ask } from './asking.js';
import { shownOf } from './records.js';
import { ownFacts } from './stock.js';
import { keepTotals, total } from './store/pulled.js';
import { recall } from './store/remembered.js';

const version = document.documentElement.dataset.version;
const slotOf = (slot) => `answer ${slot}`;

/** The print of a value that JSON can write, by version of the app: whether something is still as it was. */
export async function printOf(value) {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify(value))));
  return `${version} ${Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

/** How the exchange stands: `keepIn` keeps nothing of what was worked out before it went on. */
export const endOfLog = () => recall('sync') ?? {};

/** Whether anything was ever kept in a slot. */
export const isKept = (slot) => total(slotOf(slot)) !== undefined;

/** What was kept in a slot, else `otherwise`. */
export const keptIn = (slot, otherwise) => {
  const text = total(slotOf(slot))?.held.text;
  return text ? JSON.parse(text) : otherwise;
};

/** Keep a value in a slot, as a text, which a start reads sooner than objects; `stood`, as `endOfLog` told before it was worked out. */
export const keepIn = (slot, stood, value) => keepTotals(stood, { [slotOf(slot)]: { held: { text: JSON.stringify(value) }, through: 0 } });

/** What `make` made of what `gather` resolves to, whatever JSON can write: kept, and made again only of something else.
    `asked` is what is chosen of it, by which nothing need be gathered while nothing was kept and nothing came. What was
    made of the same choice before something changed is shown to `showBefore` meanwhile. */
export async function keptOf(slot, asked, gather, make, showBefore = () => {}) {
  const stood = endOfLog();
  const [mark, choice] = [await markOf(stood, asked), JSON.stringify(asked)];
  const before = keptIn(slot);
  if (before?.mark === mark) return before.made;
  if (before?.choice === choice) showBefore(before.made);
  const of = await gather();
  const print = await printOf(of);
  const made = before?.print === print ? before.made : await make(of);
  // what came meanwhile may be in it, and may be undone again: only its print says what it is of
  const still = mark === (await markOf(endOfLog(), asked));
  await keepIn(slot, stood, { mark: still ? mark : null, choice, print, made });
  return made;
}

// all that can be gathered here is of the log up to its end, of own facts, and of descriptions as they are shown
const markOf = ({ epoch, cursor, role }, asked) => printOf([epoch, cursor, role, ownFacts().map(({ id }) => id), shownOf(), asked]);

// how many screens wait for a long answer
let waiting = 0;

/** Whether a screen waits for a long answer: what is worked out ahead would hold it up. */
export const isWaitedFor = () => waiting > 0;

/** What `keptOf` resolves to, for a screen. */
export async function keptForScreen(...how) {
  waiting += 1;
  try {
    return await keptOf(...how);
  } finally {
    waiting -= 1;
  }
}

/** Ask the core for a screen, where it was not asked the same here before. */
export const askKept = (slot, method, asked, gather) => keptForScreen(slot, asked, gather, (args) => ask(method, args));
