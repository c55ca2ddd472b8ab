/* How near such a forecast would have come on the days that are over; it takes a while, and can be stopped. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { howNear } from '../../data/next-market.js';
import { useSearch } from '../parts/use-search.js';

export function HowNear({ booking, choices }) {
  const [asked, ask] = useState(false);
  return html`
    <section class="plain no-print">
      <h2>How near it comes</h2>
      ${asked ? html`<${Looking} booking=${booking} choices=${choices} />` : html`<p>Foretell each day that is over from those before it, and compare with what sold.</p><p><button type="button" onClick=${() => ask(true)}>Look back</button></p>`}
    </section>
  `;
}

function Looking({ booking, choices }) {
  const { told, problem, stop } = useSearch((show, stopped) => howNear(booking, choices, show, stopped), [booking]);
  if (problem) return html`<p class="problem" role="alert">${problem}</p>`;
  const { crps, last_time: last, mean_sold: mean, days } = told?.result.check ?? { days: 0 };
  return html`
    <div data-near=${days} data-done=${told?.done || undefined}>
      ${!told?.done && html`<p role="status">${days === 0 ? 'Looking back…' : `${days} days so far…`} <button type="button" onClick=${stop}>Stop</button></p>`}
      ${
        days > 0 &&
        html`<p>On ${countInWords(days, 'day')}, off by so many pieces of a product:</p>
      <ul class="lines">
        <li><span>This forecast</span><strong class="number">${number(crps)}</strong></li>
        <li><span>As many as the last time</span><span class="number">${number(last)}</span></li>
        <li><span>The mean of all days before</span><span class="number">${number(mean)}</span></li>
      </ul>`
      }
      ${told?.done && !days && html`<p>No day can be compared yet.</p>`}
    </div>
  `;
}

const number = (value) => value.toLocaleString(undefined, { maximumFractionDigits: 1, minimumFractionDigits: 1 });
