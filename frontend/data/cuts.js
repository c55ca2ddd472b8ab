/* What was cut: the cuts that were recorded, the strips of them that wait, and taking one back. */
import { keepTogether } from './actions.js';
import { ask } from './asking.js';
import { today } from './clock.js';
import { factsOf } from './facts.js';

/** Strips that wait for a batch: [{cloth, size, quantity}]. */
export async function stripsWaiting() {
  const { cuts, cut_voids } = await known();
  return ask('waiting_strips', { cuts: cuts.map(({ id, cloth, lines }) => ({ id, cloth, lines })), cut_voids });
}

/** Cuts, the latest first, each with whether it was taken back: [{…cut, never}]. */
export async function cutsMade() {
  const { cuts, cut_voids } = await known();
  const never = new Set(cut_voids.map(({ cut }) => cut));
  return cuts.map((cut) => ({ ...cut, never: never.has(cut.id) }));
}

/** What becomes of remnants where cuts never happened: {come_back, put_away}, their ids. */
export async function ifTakenBack(ids) {
  const { cuts, cut_voids } = await known();
  const remnants = cuts.map(({ id, remnant, offcuts = [] }) => ({ id, remnant, offcuts }));
  return ask('cuts_taken_back', { cuts: remnants, cut_voids, taken_back: ids });
}

/** Say that cuts never happened; `stays`: ids of offcuts that are there all the same. */
export async function takeBack(ids, { reason = '', stays = [] } = {}) {
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
  const [cuts, voids] = await Promise.all([factsOf('cut'), factsOf('cut-void')]);
  return { cuts, cut_voids: voids.map(({ cut }) => ({ cut })) };
}
