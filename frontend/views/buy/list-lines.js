/* Putting a line on the shopping list. */
import { describeNew, putAway } from '../../data/actions.js';
import { saying } from '../parts/notice.js';

/** Keep a list line; says so, with undo. Resolves to its id, or null if it could not be kept. */
export function putOnList({ name, for_what = '', quantity = null, length_to_buy = null, cost = null }) {
  const line = { name, for_what: for_what ?? '', quantity, length_to_buy, cost };
  return saying('On the list', () => describeNew('list-line', line), (id) => putAway('list-line', id));
}
