/* From the shopping list to the table: a ticked line of cloth is a remnant at home, with the line's own id on every phone. */
import { keepTogether } from './actions.js';
import { ask } from './asking.js';
import { changed, clothOfLine, cutting, keepCutting, wantedOf, withWanted } from './cutting.js';
import { nameWithDay } from './naming.js';
import { today } from './clock.js';
import { materialOfLine, purchaseOf, voidsOfLine } from './purchases.js';
import { recordById } from './records.js';

/** The cloth at home that a line was bought as; null where there is none, or no longer. */
export function homeOf(line) {
  const remnant = recordById('remnant', line.id);
  return remnant && !remnant.archived ? remnant : null;
}

/** Say that a line is in the bag, for {length_to_buy, packs, cost} as the shop cut and charged it; of a cloth that is measured,
    it is at home from then on, of other material its packs are. What it cost is a purchase. Resolves to {width, length}
    of the cloth at home, else null. */
export async function bought(line, paid = {}) {
  const now = { ...recordById('list-line', line.id), ...paid };
  const cloth = clothOfLine(line);
  const sides = cloth && now.length_to_buy ? await ask('brought_home', { fields: recordById('cloth', cloth), length: now.length_to_buy }) : null;
  const known = recordById('remnant', line.id);
  const edited = [['list-line', line.id, { ...paid, bought: true }], ...packsAtHome(line.id, now.packs ?? 0)];
  if (known) edited.push(['remnant', line.id, { ...sides, archived: !sides }]);
  const name = nameWithDay(line.name, today());
  const purchase = purchaseOf(now);
  await keepTogether({
    facts: [...(now.bought ? await voidsOfLine(line) : []), ...(purchase ? [['purchase', purchase]] : [])],
    described: sides && !known ? [['remnant', { ...sides, cloth, name }, line.id]] : [],
    edited,
  });
  await layOutAnewOn(cloth);
  return sides;
}

/** Say that a line is not bought after all; what was at home of it is not, and its purchase is void. */
export async function notBought(line) {
  const edited = [['list-line', line.id, { bought: false }], ...packsAtHome(line.id, 0)];
  if (homeOf(line)) edited.push(['remnant', line.id, { archived: true }]);
  await keepTogether({ facts: await voidsOfLine(line), edited });
  await layOutAnewOn(clothOfLine(line));
}

// how many packs of each material are called at home
const AT_HOME = { elastic: 'rolls', thread: 'spools', supply: 'at_home' };

// the edit that has so many packs of a line's material at home, where it was other than that
function packsAtHome(id, packs) {
  const line = recordById('list-line', id);
  const more = packs - (line.bought ? (line.packs ?? 0) : 0);
  const [kind, material] = materialOfLine(line) ?? [];
  const record = AT_HOME[kind] && recordById(kind, material);
  if (!record || !more) return [];
  return [[kind, material, { [AT_HOME[kind]]: Math.max(0, (record[AT_HOME[kind]] ?? 0) + more) }]];
}

/** Have what a line is for cut: into the plan with it, unless the plan has it or is begun. */
export async function planFor(line) {
  const plan = cutting();
  const wanted = wantedOf(line);
  const has = plan.wanted.some(({ size, cloth }) => size === wanted?.size && cloth === wanted.cloth);
  if (wanted && !has && !plan.made) await keepCutting(withWanted(plan, wanted, wanted.quantity));
}

// what is laid out already, and not begun, knows nothing of what came home since
async function layOutAnewOn(cloth) {
  const plan = cutting();
  if (!plan.made && plan.layout && plan.wanted.some((line) => line.cloth === cloth)) await keepCutting(changed(plan, {}));
}
