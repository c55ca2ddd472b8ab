/* Sewing plans: what an owner decided to sew, and what of it is still to be cut and sewn. */
import { ask } from './asking.js';
import { freeStrips } from './batches.js';
import { today } from './clock.js';
import { changed, cutting, keepCutting, withWanted } from './cutting.js';
import { keepPlan, wayBack } from './plans.js';
import { records, recordsOf } from './records.js';
import { chosenThreads } from './threads.js';

const KINDS = ['plan', 'booking', 'product', 'batch', 'thread'];

/** Strips that wait and are in no open batch: [{size, cloth, quantity}]. */
export const stripsToSew = async () => (await freeStrips()).map(({ size, cloth, quantity }) => ({ size, cloth, quantity }));

/** What the sewing plans still want, as the core's `still_to_sew` tells: {plans, wanted}. */
export async function stillToSew() {
  if (!records('plan').some(({ use }) => use === 'sew')) return { plans: [], wanted: [] };
  return ask('still_to_sew', { records: recordsOf(KINDS), waiting: await stripsToSew(), choices: chosenThreads(), day: today() });
}

/** Make what was decided, [{booking, product, quantity, batches}], the sewing plans of the bookings. Resolves to the way back. */
export async function keepSewingPlans(made) {
  const plans = await ask('sewing_plans', { records: recordsOf(KINDS), made, day: today() });
  const back = wayBack(
    'sew',
    plans.map(({ booking }) => booking),
  );
  for (const { booking, lines } of plans) await keepPlan('sew', booking, lines);
  return back;
}

/** Whether cuts of the plan are begun: what is to be cut cannot change until they are recorded. */
export const isCutting = () => cutting().made > 0;

/** Put strips that are still to be cut, [{size, cloth, quantity}], into the plan of Buy and Make. */
export const planCutting = (wanted) => keepCutting(wanted.reduce((plan, line) => withWanted(plan, line, line.quantity), changed(cutting(), {})));

/** What a batch to start takes over from a line of a plan, as far as its strips are cut: fields of `draftOfBatch`. */
export const draftFor = ({ needed }, { size, cloth, thread, strips }) => ({
  lines: { [`${size} ${cloth}`]: strips },
  typed: [],
  needle: thread ?? '',
  bobbin: '',
  needed,
});
