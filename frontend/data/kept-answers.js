/* What the core worked out of many records, kept with what else is folded from the log until what it is made of changes. It
   goes with the log: where all is pulled anew, as in another role, nothing of it stays. */
import { ask } from './asking.js';
import { keepTotals, recall, total } from './store.js';

const version = document.documentElement.dataset.version;
const slotOf = (slot) => `answer ${slot}`;

/** The print of a value that JSON can write, by version of the app: whether something is still as it was. */
export async function printOf(value) {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify(value))));
  return `${version} ${Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

/** How the exchange stands: `keepIn` keeps nothing of what was worked out before it went on. */
export const standing = () => recall('sync') ?? {};

/** What was kept in a slot, else `otherwise`. */
export const keptIn = (slot, otherwise) => {
  const text = total(slotOf(slot))?.held.text;
  return text ? JSON.parse(text) : otherwise;
};

/** Keep a value in a slot, as a text, which a start reads sooner than objects; `stood`, as `standing` told before it was worked out. */
export const keepIn = (slot, stood, value) => keepTotals(stood, { [slotOf(slot)]: { held: { text: JSON.stringify(value) }, through: 0 } });

/** What `make` made of `of`, whatever JSON can write: kept, and made again only of something else. */
export async function keptOf(slot, of, make) {
  const stood = standing();
  const print = await printOf(of);
  const before = keptIn(slot);
  if (before?.print === print) return before.made;
  const made = await make();
  await keepIn(slot, stood, { print, made });
  return made;
}

/** Ask the core, where it was not asked the same here before. */
export const askKept = (slot, method, args) => keptOf(slot, args, () => ask(method, args));
