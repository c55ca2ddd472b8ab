/* What one remnant could give: what is chosen for it, the dearest mix of strips found, and cutting by that. */
import { ask } from './asking.js';
import { readMoney } from './calculating.js';
import { cutting, keepCutting, REMNANT } from './cutting.js';
import { stripsWaiting } from './cuts.js';
import { firstUnit } from './preferences.js';
import { recordById, records } from './records.js';
import { search } from './searching.js';
import { recall, remember } from './store/remembered.js';

const CHOICES = 'remnant-mix';
const FOUND = 'remnant-mix-found';
const NOTHING = { remnant: null, measure: null, lying: null, many: null, stages: 'any', leftOut: [], worths: {}, quantities: {} };

/** Remnants that are there, those to be used up first before others, the largest first. */
export const remnantsAtHome = () =>
  records('remnant')
    .filter(({ cloth }) => recordById('cloth', cloth))
    .sort((a, b) => Number(b.use_first ?? false) - Number(a.use_first ?? false) || b.width * b.length - a.width * a.length);

/** What is chosen: {remnant (its id, null where there is none), measure, lying and many (null: as follows from what is
    known), stages, leftOut (ids of sizes), worths ({size: {text, amount}}, as typed), quantities ({size: most})}; of the
    remnant asked for, where it is another. */
export function mixChoices(wanted) {
  const chosen = { ...NOTHING, ...recall(CHOICES) };
  const there = remnantsAtHome().map(({ id }) => id);
  const remnant = [wanted, chosen.remnant, ...there].find((id) => there.includes(id)) ?? null;
  return remnant === chosen.remnant ? chosen : { ...chosen, ...ofRemnant(remnant) };
}

export const keepMixChoices = (choices) => remember(CHOICES, choices);

/** What is chosen anew with another remnant: how it lies and how many follow from its cloth. */
export const ofRemnant = (remnant) => ({ remnant, lying: null, many: null, quantities: {} });

/** What is typed as the worth of one, read: {text, amount, problem}; null for nothing typed. */
export async function readWorth(text) {
  return text.trim() ? { text, ...(await readMoney(text)) } : null;
}

/** What the core makes of it, as `remnant_mix` tells; null where there is no remnant or no size. */
export async function mixOf(choices) {
  const remnant = recordById('remnant', choices.remnant);
  if (!remnant || !records('piece').length) return null;
  const { measure, lying, many, stages, leftOut, quantities } = choices;
  const worths = Object.entries(choices.worths).filter(([, { amount }]) => amount !== null);
  const plan = cutting();
  const byId = (found) => Object.fromEntries(found.map((record) => [record.id, record]));
  return ask('remnant_mix', {
    remnants: { [remnant.id]: remnant },
    cloths: { [remnant.cloth]: recordById('cloth', remnant.cloth) },
    sizes: byId(records('piece')),
    products: byId(records('product')),
    elastics: byId(records('elastic')),
    wanted: plan.wanted.filter(({ quantity }) => quantity > 0),
    waiting: await stripsWaiting(),
    ways: plan.ways,
    choices: {
      measure,
      lying,
      many,
      stages,
      left_out: leftOut,
      quantities,
      worths: Object.fromEntries(worths.map(([id, { amount }]) => [id, amount])),
    },
    unit: firstUnit({ unit: 'mm' }),
  });
}

/** What an answer depends on, as a text. */
export const keyOf = (remnant, { given, rows, layers, measure, lying, nap }) => JSON.stringify([remnant, given, rows, layers, measure, lying, nap]);

/** Look for the dearest mix a little at a time; `show` is told {key, remnant, mix, result, laid, done} whenever it is better, and
    when it is proven or the steps are used up. What was found before is told at once. Throws where the core refuses. */
export async function findMix(remnant, mix, show, stopped) {
  const key = keyOf(remnant, mix);
  const before = foundBefore(remnant, mix);
  if (before?.done) {
    show(before);
    return;
  }
  let laid = null;
  let of = null;
  let told = Promise.resolve();
  const tell = async ({ result, done }) => {
    const { value, placed } = result;
    if (of !== value || !laid) laid = await layMix(remnant, mix, result);
    of = value;
    // where each strip lies is told of the laid cloth
    const found = { key, remnant, mix, result: { ...result, placed: placed.length }, laid, done };
    if (stopped()) return;
    keepFound(found);
    show(found);
  };
  await search(
    'remnant-best-mix',
    mix.given,
    (state) => {
      told = told.then(() => tell(state));
    },
    stopped,
  );
  await told;
}

/** Keep what was found, so that it need not be looked for again. */
export const keepFound = (found) => remember(FOUND, found);

/** What was found for these choices before; null for nothing. */
export function foundBefore(remnant, mix) {
  const found = recall(FOUND);
  return found?.key === keyOf(remnant, mix) ? found : null;
}

async function layMix(remnant, mix, { placed, first_cuts: first }) {
  const strips = mix.sizes.map(({ length, width }) => ({ length, width }));
  const laid = await ask('laid_mix', { given: mix.given, placed, first, lying: mix.lying, layers: mix.layers, strips });
  return { ...laid, name: recordById('remnant', remnant).name };
}

/** What was found, as a layout is kept with a plan. */
function layoutOf({ key, remnant, mix, laid }) {
  return {
    key,
    cloths: [{ cloth: recordById('remnant', remnant).cloth, remnant }],
    strips: mix.rows.map((size) => ({ size })),
    given: { stages: mix.given.stages, cloths: [wayOf({ mix, laid })] },
    result: { cloths: [laid] },
    done: true,
  };
}

/** How a remnant is cut, as a layout's cloth tells it: never torn, as tearing would take some of each strip. */
export const wayOf = ({ mix, laid }) => ({ name: laid.name, nap: mix.nap, tear: false, layers: mix.layers });

/** The remnant being cut by itself: a plan as `cutting` tells, layout null where there is none. */
export const remnantCutting = () => cutting(REMNANT);

/** Whether cuts are begun of what was found. */
export const isBeingCut = ({ key }) => remnantCutting().layout?.key === key;

/** Begin to cut by what was found; cuts of it that were made already stay made. */
export async function cutMix(found) {
  if (isBeingCut(found)) return;
  const { tool } = remnantCutting();
  await keepCutting({ tool, layout: layoutOf(found) }, REMNANT);
}
