/* What to bring to the next market: asked of the core, from the days before, what pieces cost, and what there is; for owners. */
import { ask } from './asking.js';
import { calculatorNamed, problemsInWords } from './calculating.js';
import { costsEach } from './costs.js';
import { daysSold } from './days-sold.js';
import { nameOf } from './naming.js';
import { askKept } from './kept-answers.js';
import { beginPacking, keepPacking, packing } from './packing.js';
import { keepPlan, wayBack } from './plans.js';
import { recordById, recordsOf } from './records.js';
import { search } from './searching.js';
import { stock } from './stock.js';
import { recall, rememberSoon, subscribe } from './store.js';

const KINDS = ['business', 'booking', 'market', 'product', 'place'];

/** What is chosen: {booking, capacity, guess, factor, at_least, carry}, each as far as it was chosen. */
export const nextChoices = () => recall('next-market', {});
export const keepNextChoices = (choices) => rememberSoon('next-market', choices);

// what a question is made of, until something was kept or came; one after another, as each begins with what the last found
let gathered = null;
let last = Promise.resolve();
// who is told how far it is; nobody once the screen is left, and then it ends
let showing = null;
subscribe(() => {
  gathered = null;
});

async function gather() {
  const costs = await costsEach(telling('costs'));
  const days = await daysSold(telling('days'));
  return { days_sold: days, costs, stock: await stock() };
}

const telling = (what) => (done, all) => {
  if (!showing) throw new Error('The screen was left');
  showing(what, done, all);
};

/** Look no further at the days before: nobody waits for it. */
export const stopLooking = () => {
  showing = null;
};

/** What to bring to a booking, as the core's `next_market` tells it, and of each product which of its materials were never
    bought, `unbought`; null where the booking is not here. `show` is told what is being added up, `costs` or `days`, and how far it is. */
export async function whatToBring(booking, choices, show) {
  const told = await askKept('next-market', 'next_market', await question(booking, choices, show));
  return told && { ...told, unbought: costsOf((await soldAndThere(show)).costs, 'unbought') };
}

async function question(booking, { guess = null, factor = 100, at_least = 0, carry = 0 }, show) {
  const { costs, ...more } = await soldAndThere(show);
  return { ...more, costs: costsOf(costs, 'cost_each'), records: recordsOf(KINDS), booking, choices: { guess, factor, at_least, carry } };
}

/** What market days tell, what pieces cost as `costsEach` tells, and the stock: {days_sold, costs, stock}. `show` is told what is
    being added up, `costs` or `days`, and how far it is. */
export async function soldAndThere(show) {
  showing = show;
  if (!gathered) {
    const mine = last.then(gather);
    gathered = mine;
    last = mine.then(
      () => null,
      () => {
        if (gathered === mine) gathered = null;
      },
    );
  }
  return gathered;
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
  const asked = await question(booking, choices, showing ?? (() => {}));
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
  return Promise.all(named.map((note) => problemsInWords([note])));
}
