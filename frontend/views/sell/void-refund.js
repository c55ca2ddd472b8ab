/* Money that was not given back after all: a refund is void, and can be recorded again for a moment. */
import { html } from 'htm/preact';
import { timeInWords } from '../../data/naming.js';
import { isHelper } from '../../data/records.js';
import { sellingDay, stateAgain, takeBack } from '../../data/till.js';
import { saying, useOnce } from '../parts/notice.js';

/** Whether this phone's role may void it: of another day an owner's phone does it. */
export const mayVoid = ({ day }) => !isHelper() || day === sellingDay();

export function VoidRefund({ refund }) {
  const again = refund.day === sellingDay() ? () => saying('Recorded again', () => stateAgain(refund)) : null;
  const never = useOnce(() => saying('Not given back', () => takeBack('refund', refund.id, ''), again));
  if (!mayVoid(refund)) return null;
  return html`<button type="button" class="quiet" data-void-refund=${refund.id} aria-label=${`Void what was given back at ${timeInWords(refund.at)}`} onClick=${never}>Void</button>`;
}
