/* Money that was not given back after all: a refund is void, and can be recorded again for a moment. */
import { html } from 'htm/preact';
import { today } from '../../data/clock.js';
import { timeInWords } from '../../data/naming.js';
import { isHelper } from '../../data/records.js';
import { stateAgain, takeBack } from '../../data/till.js';
import { saying, useOnce } from '../parts/notice.js';

export function VoidRefund({ refund }) {
  const isToday = refund.day === today();
  const again = isToday ? () => saying('Recorded again', () => stateAgain(refund)) : null;
  const never = useOnce(() => saying('Not given back', () => takeBack('refund', refund.id, ''), again));
  // of another day an owner's phone does it
  if (isHelper() && !isToday) return null;
  return html`<button type="button" class="quiet" data-void-refund=${refund.id} aria-label=${`Void what was given back at ${timeInWords(refund.at)}`} onClick=${never}>Void</button>`;
}
