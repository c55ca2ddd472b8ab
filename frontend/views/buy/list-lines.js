/* Putting a line on the shopping list. */
import { describeNew, putAway } from '../../data/actions.js';
import { kindNamed, valuesFor } from '../../data/calculating.js';
import { saying } from '../parts/notice.js';

/** Keep a list line of what it can hold of some values, linked to the saved size and cloth it is about; says so, with undo.
    Resolves to its id, or null if it could not be kept. */
export function putOnList(values, { piece, cloth } = {}) {
  const line = valuesFor(kindNamed('list-line').fields, { for_what: piece?.name, size: piece?.id, cloth: cloth?.id, ...values });
  return saying(
    'On the list',
    () => describeNew('list-line', line),
    (id) => putAway('list-line', id),
  );
}
