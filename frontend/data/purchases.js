/* What was bought and what else was spent, for owners: purchases, expenses, and taking either back. */
import { state } from './actions.js';
import { kindsVoiding } from './asking.js';
import { kindNamed, valuesFor } from './calculating.js';
import { today } from './clock.js';
import { clothOfLine } from './cutting.js';
import { factsWithVoids } from './facts.js';
import { nameOf } from './naming.js';
import { mayKnow, recordById } from './records.js';

/** What material can be: [kind of record, what one lot of it is called]. */
export const MATERIALS = [
  ['cloth', null],
  ['elastic', 'roll'],
  ['thread', 'spool'],
  ['supply', 'pack'],
];

/** Facts of a kind that stand, the latest first. */
export const notVoided = async (kind) => (await factsWithVoids(kind)).filter(({ never }) => !never);

/** What a purchase is of: {kind, name, lot}. */
export function materialOf(purchase) {
  const [kind, lot] = MATERIALS.find(([name]) => purchase[name]) ?? ['cloth', null];
  return { kind, lot, name: nameOf(kind, recordById(kind, purchase[kind])) || 'Something not here yet' };
}

/** The saved material that a line of the shopping list is: [kind, id]; null where it names none. */
export function materialOfLine(line) {
  const [kind] = MATERIALS.find(([name]) => line[name]) ?? [];
  if (kind) return [kind, line[kind]];
  const cloth = clothOfLine(line);
  return cloth ? ['cloth', cloth] : null;
}

/** The purchase that a line becomes at its price: its fields; null where that is not known, or not this phone's to say. */
export function purchaseOf(line) {
  const [kind, id] = materialOfLine(line) ?? [];
  const measured = kind === 'cloth' ? { length: line.length_to_buy } : { quantity: line.packs };
  const known = Object.values(measured).every(Boolean) && typeof line.cost === 'number';
  return kind && known && mayKnow('purchase') ? { day: today(), [kind]: id, ...measured, amount: line.cost, line: line.id } : null;
}

/** What says that the purchases of a line are void: [kind, fields] each. */
export async function voidsOfLine(line) {
  if (!mayKnow('purchase')) return [];
  const made = (await notVoided('purchase')).filter((purchase) => purchase.line === line.id);
  return made.map(({ id }) => ['purchase-void', { day: today(), purchase: id, reason: 'taken off the list' }]);
}

/** Say that a purchase or an expense is void. */
export function makeVoid({ kind, id }) {
  const [voiding] = kindsVoiding(kind);
  return state(voiding.name, { day: today(), [voiding.voids]: id, reason: '' });
}

/** Record a fact again that was just made void. */
export const recordAgain = (fact) => state(fact.kind, valuesFor(kindNamed(fact.kind).fields, fact));
