/* What was cut: the cuts that were recorded, the strips of them that wait, and taking one back. */
import { keepTogether } from './actions.js';
import { ask } from './asking.js';
import { today } from './clock.js';
import { factsOf, factsWithVoids } from './facts.js';
import { records } from './records.js';
import { voids as neverHappened } from './stock.js';

/** Facts of what is cut, of what is sewn of it, and of what says that neither happened. */
export const OF_STRIPS = ['cut', 'cut-void', 'batch-result', 'batch-void', 'left-out'];
const byId = (kind) => Object.fromEntries(records(kind, true).map((record) => [record.id, record]));

/** Strips that wait for a batch: [{cloth, size, quantity}]. `of` reads the facts of a kind. */
export async function stripsWaiting(of = factsOf) {
  const facts = (await Promise.all(OF_STRIPS.map((kind) => of(kind)))).flat();
  return ask('waiting_strips', { facts, batches: byId('batch'), products: byId('product') });
}

/** Cuts, the latest first, each with whether it was taken back: [{…cut, never}]. */
export const cutsMade = () => factsWithVoids('cut');

/** What becomes of remnants where cuts never happened: {come_back, put_away}, their ids. */
export async function ifTakenBack(ids) {
  const { cuts, cut_voids } = await known();
  const remnants = cuts.map(({ id, remnant, offcuts = [] }) => ({ id, remnant, offcuts }));
  return ask('cuts_taken_back', { cuts: remnants, cut_voids, taken_back: ids });
}

/** Say that cuts never happened; `stays`: ids of offcuts that are there all the same. */
export async function voidCuts(ids, { reason = '', stays = [] } = {}) {
  const { come_back, put_away } = await ifTakenBack(ids);
  await keepTogether({
    facts: ids.map((cut) => ['cut-void', { day: today(), cut, reason }]),
    edited: [
      ...come_back.map((id) => ['remnant', id, { archived: false }]),
      ...put_away.filter((id) => !stays.includes(id)).map((id) => ['remnant', id, { archived: true }]),
    ],
  });
}

async function known() {
  const [cuts, voids, leftOut] = await Promise.all([factsOf('cut'), factsOf('cut-void'), neverHappened()]);
  const stand = voids.filter(({ id }) => !leftOut[id]);
  return { cuts: cuts.filter(({ id }) => !leftOut[id]), cut_voids: stand.map(({ cut }) => ({ cut })) };
}
