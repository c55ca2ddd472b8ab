/* What to sew before the next bookings, worked out by the core from what is recorded; for owners. */
import { openBatches } from './batches.js';
import { today, zone } from './clock.js';
import { OF_STRIPS } from './cuts.js';
import { factsOfCost, factsReadBy } from './facts-of-costs.js';
import { keepIn, keptForScreen, keptIn, keptOf, printOf, endOfLog } from './kept-answers.js';
import { costsOf, keepNextChoices, nextChoices, soldAndThere, withUnbought } from './next-market.js';
import { recordsOf } from './records.js';
import { search } from './searching.js';
import { keepSewingPlans, stripsToSew } from './sewing-plans.js';
import { recall, remember } from './store/remembered.js';
import { chosenThreads } from './threads.js';

// the latest laps tell how long it takes; all of what is paid, and what never happened, is read
const MOST_LAPS = 400;
const FOUND = 'sewing-found';
const KINDS = ['business', 'piece', 'cloth', 'remnant', 'elastic', 'thread', 'product', 'method', 'batch', 'market', 'booking', 'place'];

/** What is chosen: {buy, pieces, minutes_each, week_minutes, guess}, each as far as it was chosen; a guess is that of the next
    market. */
export const sewingChoices = () => ({ ...recall('next-sewing', {}), guess: nextChoices().guess });

export function keepSewingChoices({ guess, ...choices }) {
  if (guess !== nextChoices().guess) keepNextChoices({ ...nextChoices(), guess });
  return remember('next-sewing', choices);
}

/** What make-next is asked and what it is known from, as the core's `next_sewing` tells, and `unbought` as `whatToBring`. `show`
    is told what is being added up, `showBefore` what was told before something changed. */
export function sewingAsked(choices, show, showBefore) {
  const chosen = { ...choices, threads: chosenThreads() };
  return keptForScreen('next-sewing', [chosen, today(), zone()], () => question(chosen, show), withUnbought('next_sewing'), showBefore);
}

async function question(choices, show) {
  const { days_sold, costs, stock } = await soldAndThere(show);
  const [facts, waiting] = await Promise.all([factsReadBy('next_sewing'), stripsNow()]);
  const open = new Set(openBatches().map(({ id }) => id));
  const laps = facts.filter(({ kind }) => kind === 'batch-step');
  const others = facts.filter(({ kind, batch }) => kind !== 'batch-step' && (kind !== 'batch-result' || open.has(batch)));
  const asked = {
    facts: [...laps.slice(0, MOST_LAPS), ...others],
    days_sold,
    records: recordsOf(KINDS),
    costs: costsOf(costs, 'cash_each'),
    stock,
    waiting,
    day: today(),
    choices,
  };
  return { asked, unbought: costsOf(costs, 'unbought') };
}

// cut and sewn far less often than something is sold
const stripsNow = () => keptOf('strips-to-sew', [], gatherStrips, () => stripsToSew(factsOfCost));

async function gatherStrips() {
  const kinds = await Promise.all(OF_STRIPS.map(factsOfCost));
  return [kinds.flat().map(({ id }) => id), recordsOf(['batch', 'product'])];
}

/** Look for the batches that bring most, a little at a time: `show` is told {result, done}. What was found is kept, also where
    the screen is left before the end: the same question opens with it, and looks on only while it is of now. */
export async function findBatches({ given }, show, stopped, isOfNow) {
  const [stood, print] = [endOfLog(), await printOf(given)];
  const before = keptIn(FOUND);
  let best = before?.print === print ? before.told : null;
  let keeping = null;
  if (best) show(best);
  if (best?.done || !isOfNow) return;
  const tell = (told) => {
    // it begins anew, and what was found before stands until it is found again
    if (best && !told.done && told.result.worth <= best.result.worth) return;
    best = told;
    show(told);
    keeping = keepIn(FOUND, stood, { print, told });
  };
  await search('make-next', given, tell, stopped);
  await keeping;
}

/** Make what was found the sewing plans of its bookings; resolves to the way back. */
export function makeSewingPlans({ given }, { plan }) {
  const pieces = Object.fromEntries(given.products.map(({ product, batch }) => [product, batch]));
  return keepSewingPlans(plan.map(({ booking, product, batches }) => ({ booking, product, batches, quantity: batches * pieces[product] })));
}
