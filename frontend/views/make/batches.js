/* All that came of batches, month by month, the latest first. */
import { html } from 'htm/preact';
import { factsWithVoids } from '../../data/facts.js';
import { batchInWords, dayInWords, nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { byMonth, Groups } from '../parts/groups.js';
import { KeptState } from '../parts/kept-state.js';
import { useFollowed } from '../parts/use-records.js';

export function Batches() {
  const results = useFollowed(() => factsWithVoids('batch-result'), []);
  return html`
    <h1>What was sewn</h1>
    ${results?.length === 0 && html`<p class="lead">Nothing yet. What comes of a batch is listed here. <a href="/make/batches/new">Start a batch</a></p>`}
    <${Groups} groups=${byMonth(results ?? [], ({ day }) => day)} line=${line} />
  `;
}

const line = (result) => html`
        <li key=${result.id} data-result=${result.id}>
          <span><a class="to-record" href=${`/make/batches/${result.batch}/finished`}>${dayInWords(result.day)}, ${batchInWords(recordById('batch', result.batch) ?? {})}</a>
            <small>${result.never ? 'void' : result.lines.map(({ product, good }) => `${good} × ${nameOf('product', recordById('product', product))}`).join(', ')}</small></span>
          <${KeptState} id=${result.id} />
        </li>`;
