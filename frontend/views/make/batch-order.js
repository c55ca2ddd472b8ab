/* The order of open batches in which the machine is set up anew least, and what that saves. */
import { html } from 'htm/preact';
import { batchInWords } from '../../data/naming.js';
import { recordById } from '../../data/records.js';

export function BatchOrder({ told }) {
  if (!told?.result) return null;
  const { order, minutes, as_given } = told.result;
  const saved = as_given - minutes;
  return html`
    <section class="plain" data-saves=${saved}>
      <h2>Fewest set-ups</h2>
      <p>${saved > 0 ? `This order of the open batches saves ${saved} min of threads and settings:` : 'As they stand: no other order of the open batches has fewer set-ups.'}</p>
      ${saved > 0 && html`<ol>${order.map(({ name, changes }) => html`<li><a href=${`/make/batches/${name}`}>${batchInWords(recordById('batch', name))}</a>${changes?.length > 0 && ` (new ${changes.join(', ')})`}</li>`)}</ol>`}
    </section>
  `;
}
