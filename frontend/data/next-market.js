/* What to bring to the next market: asked of the core, from the days before, what pieces cost, and what there is; for owners. */
import { ask } from './asking.js';
import { calculatorNamed, notesInWords } from './calculating.js';
import { zone } from './clock.js';
import { costsEach } from './costs.js';
import { daysSold } from './days-sold.js';
import { nameOf } from './naming.js';
import { keptForScreen } from './kept-answers.js';
import { beginPacking, keepPacking, packing } from './packing.js';
import { keepPlan, wayBack } from './plans.js';
import { recordById, recordsOf } from './records.js';
import { search } from './searching.js';
import { stock } from './stock.js';
import { recall, rememberSoon } from './store/remembered.js';

const KINDS = ['business', 'booking', 'market', 'product', 'place'];

/** What is chosen: {booking, capacity, guess, factor, at_least, carry}, each as far as it was chosen. */
export const nextChoices = () => recall('next-market', {});
export const keepNextChoices = (choices) => rememberSoon('next-market', choices);

// one after another, as each begins with what the last found
let last = Promise.resolve();
// who is told how far it is; nobody once the screen is left, and then it ends
let showing = null;

async function gather() {
  const costs = await costsEach(telling('costs'));
  const days = await daysSold(telling('days'));
  return { days_sold: days, costs, stock: await stock() };
}

const telling = (what) => (done, all) => {
  if (showing) showing(what, done, all);
  else if (isOver()) throw new Error('Nobody waits for it any more');
};

// whether nobody wants it, where no screen does
let isOver = () => true;

/** Look at the days before ahead of who asks, until `stopped` says so. */
export async function soldAhead(stopped) {
  isOver = stopped;
  await gatherNext().catch(() => {});
  isOver = () => true;
}

/** Look no further at the days before: nobody waits for it. */
export const stopLooking = () => {
  showing = null;
};

/** What to bring to a booking, as the core's `next_market` tells it, and of each product which of its materials were never
    bought, `unbought`; null where the booking is not here. `show` is told what is being added up, `costs` or `days`, and how far
    it is; `showBefore` what was told before something changed. */
export function whatToBring(booking, choices, show, showBefore) {
  const chosen = chosenOf(choices);
  return keptForScreen('next-market', [booking, chosen, zone()], () => question(booking, chosen, show), withUnbought('next_market'), showBefore);
}

const chosenOf = ({ guess = null, factor = 100, at_least = 0, carry = 0 }) => ({ guess, factor, at_least, carry });

async function question(booking, choices, show) {
  const { costs, ...more } = await soldAndThere(show);
  const asked = { ...more, costs: costsOf(costs, 'cost_each'), records: recordsOf(KINDS), booking, choices };
  return { asked, unbought: costsOf(costs, 'unbought') };
}

/** Ask the core, and tell of each product which of its materials were never bought beside the answer, if there is one. */
export const withUnbought =
  (method) =>
  async ({ asked, unbought }) => {
    const told = await ask(method, asked);
    return told && { ...told, unbought };
  };

/** What market days tell, what pieces cost as `costsEach` tells, and the stock: {days_sold, costs, stock}. `show` is told what is
    being added up, `costs` or `days`, and how far it is. */
export function soldAndThere(show) {
  showing = show;
  return gatherNext();
}

function gatherNext() {
  const mine = last.then(gather);
  last = mine.catch(() => {});
  return mine;
}

/** One of the costs of each product. */
export const costsOf = (costs, name) => Object.fromEntries(Object.entries(costs).map(([id, cost]) => [id, cost?.[name] ?? null]));

/** The most that bringing a piece home again may cost, minor units. */
export const mostCarry = () => {
  const { fields } = calculatorNamed('bring-to-market').inputs.find(({ name }) => name === 'products');
  return fields.find(({ name }) => name === 'carry').highest;
};

/** How many of each come into a box, and what is likely to become of them, as told by `next_market`:
    {pieces: [of each product], sold, left, more: what one place more would bring}. */
export function inBox({ order, worths, products }, capacity) {
  const pieces = products.map(() => 0);
  for (const place of order.slice(0, capacity)) pieces[place] += 1;
  const sum = (name) => products.reduce((all, product, index) => all + product[name][pieces[index]], 0);
  return { pieces, sold: sum('sold'), left: sum('left'), more: worths[capacity] ?? 0 };
}

/** How near the days that are over would have been foretold: `show` is told the calculator's states, as `search` does. */
export async function howNear(booking, choices, show, stopped) {
  const { asked } = await question(booking, chosenOf(choices), showing ?? (() => {}));
  const given = await ask('market_inputs', { ...asked, capacity: 1 });
  return search('bring-to-market', { ...given, check: true }, show, stopped, 1);
}

/** Save what comes as the packing plan of a booking, and begin its packing list; resolves to the way back of both. */
export async function packFor(booking, lines) {
  const [back, list] = [wayBack('pack', [booking]), packing()];
  await keepPlan('pack', booking, lines);
  await beginPacking(booking);
  return () => Promise.all([back(), keepPacking(list)]);
}

/** The core's notes in words; a product is called by its name. */
export function notesOf({ notes }) {
  const named = notes.map((note) => ({ ...note, given: nameOf('product', recordById('product', note.given)) || note.given }));
  return notesInWords(named);
}
