/* The local days with takings: few, though a helper dates other facts to every day there is. */
import { kindNamed } from './asking.js';
import { partOfLog } from './part-of-log.js';
import { ownFacts } from './stock.js';
import { loggedAfter } from './store/log.js';

/** Whether a fact or change is of the takings. */
export const isOfTakings = ({ kind }) => Boolean(kindNamed(kind)?.takings);

/** Local days with takings, the latest first. */
export async function daysWithTakings() {
  const own = ownFacts()
    .filter(isOfTakings)
    .map(({ day }) => day);
  return [...new Set([...(await pulledDays()), ...own])].sort().reverse();
}

const pulledDays = partOfLog('days-with-takings', async (through, cursor) => {
  const fresh = await loggedAfter(through);
  return [...new Set(fresh.filter((change) => change.seq <= cursor && isOfTakings(change)).map(({ fields }) => fields.day))];
});
