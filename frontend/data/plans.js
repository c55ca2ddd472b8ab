/* Plans: what an owner decided to sew or to pack, one of each use and booking. */
import { edit, keepTogether } from './actions.js';
import { ask } from './asking.js';
import { namedId } from './named-ids.js';
import { records } from './records.js';

/** The plan of a use, "sew" or "pack", for a booking or for none; undefined where there is none, or it is archived. */
export const planOf = (use, booking = null) => records('plan').find((plan) => plan.use === use && plan.booking === booking);

/** Save a plan: lines of {product, quantity (pieces), batches (of a sewing plan, may be left out)}; without any it is
    archived. Resolves to its id. */
export async function keepPlan(use, booking, lines) {
  const there = records('plan', true).find((plan) => plan.use === use && plan.booking === booking);
  if (there && !lines.length) await dropPlan(there.id);
  else if (there) await edit('plan', there.id, { lines, archived: false });
  if (there || !lines.length) return there?.id;
  const id = await namedId(await ask('plan_name', { use, booking }));
  await keepTogether({ described: [['plan', { use, booking, lines }, id]] });
  return id;
}

/** The way back to what the plans of a use for some bookings say now. */
export function wayBack(use, bookings) {
  const before = bookings.map((booking) => [booking, planOf(use, booking)?.lines ?? []]);
  return async () => {
    for (const [booking, lines] of before) await keepPlan(use, booking, lines);
  };
}

/** Archive a plan, or with `on` false bring it back. */
export const dropPlan = (id, on = true) => edit('plan', id, { archived: on });
