/* What to buy for all that is planned: the list and its layouts, and which cloth is the better buy. */
import { keepTogether } from './actions.js';
import { ask, askOnce, fieldOf } from './asking.js';
import { calculatorNamed } from './calculating.js';
import { changed, measuredCloths, piecesOn, planned, withWanted } from './cutting.js';
import { boughtInWords, sizesWith } from './elastic.js';
import { recordById, records } from './records.js';
import { search } from './searching.js';
import { recall, remember } from './store/remembered.js';

// a cloth among others is looked at no longer than this; its cost is then the best found
const STEPS_A_CLOTH = 6000;

/** Look for what to buy of a plan, a little at a time. `show` is told what `planned` tells, {result, done} with it. */
export async function listFor(plan, show, stopped) {
  const made = await planned(plan);
  if (made) await search('buy-list', made.given, ({ result, done }) => show({ ...made, result, done }), stopped);
}

/** The calculator of cloth to buy. */
export const clothToBuy = () => calculatorNamed('fabric-per-dozen');

/** What the calculator of cloth to buy says otherwise of a cloth that a list buys, and why, as `beside_calculator` tells; null
    where both agree. `row` is one of `cloths_to_buy`. */
export function besideCalculator({ given, result }, { cloth, length_to_buy }) {
  const strips = piecesOn(result.cloths[cloth]).map(({ strip, quantity }) => {
    const { length, width, quantity: planned } = given.strips[strip];
    const { quantity: all, spare } = result.to_cut[strip];
    return { length, width, quantity: planned, spare, elsewhere: all - quantity };
  });
  return askOnce('beside', 'beside_calculator', { given: { cloth: given.cloths[cloth], strips, length_to_buy } });
}

/** What the plan comes to in each saved cloth that was measured, the best first, told whenever one more is known:
    [{cloth, result}]. */
export async function compareCloths(plan, show, stopped) {
  const found = [];
  for (const { id: cloth } of measuredCloths()) {
    const { given } = await planned(inCloth(plan, cloth));
    let last = null;
    await search(
      'buy-list',
      { ...given, steps: STEPS_A_CLOTH },
      ({ result }) => {
        last = result;
      },
      stopped,
    );
    if (stopped()) return;
    found.push({ cloth, result: last });
    show(await ranked(found));
  }
}

async function ranked(found) {
  const plans = found.map(({ result: { unplaced, cost, length_to_buy } }) => ({
    left_out: unplaced.reduce((sum, { quantity }) => sum + quantity, 0),
    cost,
    length_to_buy,
  }));
  return (await ask('rank_plans', { plans })).map((number) => found[number]);
}

/** The plan with all of it in one cloth. */
export function inCloth(plan, cloth) {
  const before = changed(plan, { wanted: [] });
  return plan.wanted.reduce((next, { size, quantity }) => {
    const same = next.wanted.find((line) => line.size === size);
    return withWanted(next, { size, cloth }, quantity + (same?.quantity ?? 0));
  }, before);
}

/** Put all of a list on the shopping list, each cloth with its layout; open lines of the plan as it was
    before come off. */
export async function putListOn(list) {
  const before = Object.keys(layouts()).filter((id) => isOpen(id));
  const lines = [...clothLines(list), ...(await elasticLines(list))];
  const ids = await keepTogether({
    described: lines.map(({ line }) => ['list-line', { ...line, for_what: line.for_what.slice(0, mostOf('for_what')) }]),
    edited: before.map((id) => ['list-line', id, { archived: true }]),
  });
  await remember('layouts', Object.fromEntries(lines.map(({ layout }, index) => [ids[index], layout])));
}

const mostOf = (field) => fieldOf('list-line', field).most;

function clothLines({ cloths, strips, given, result }) {
  return result.cloths_to_buy.map(({ cloth, pieces, length_to_buy, cost }) => ({
    line: {
      name: recordById('cloth', cloths[cloth].cloth).name,
      cloth: cloths[cloth].cloth,
      ...forSizes(piecesOn(result.cloths[cloth]).map(({ strip }) => strips[strip].size)),
      quantity: pieces,
      length_to_buy,
      cost,
    },
    layout: { laid: result.cloths[cloth], given: given.cloths[cloth] },
  }));
}

// rolls are asked for by their number: the line has no length, and no layout
function elasticLines(list) {
  return Promise.all(
    list.result.elastic_to_buy.map(async ({ roll, count, roll_length, cost }) => {
      const { id, name } = recordById('elastic', list.rolls[roll].elastic);
      const what = await boughtInWords(count, roll_length);
      return {
        line: {
          name: `${name.slice(0, mostOf('name') - what.length - 2)}: ${what}`,
          ...forSizes(sizesWith(list, id)),
          elastic: id,
          packs: count,
          cost,
        },
        layout: null,
      };
    }),
  );
}

/** The layout that a line of the shopping list was put on with: {laid, given}, on this phone; none for other
    lines. */
export const layoutOf = (line) => layouts()[line];

const layouts = () => recall('layouts') ?? {};
const isOpen = (id) => records('list-line').some((line) => line.id === id && !line.bought);

// what a line is for, and the size itself where it is one alone
function forSizes(sizes) {
  return { for_what: sizes.map((size) => recordById('piece', size).name).join(', '), size: sizes.length === 1 ? sizes[0] : null };
}
