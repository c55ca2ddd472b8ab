/* Days with an offer beside days without it: three measures, and whether they differ; never why. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { offerDays } from '../../data/books.js';
import { showMoney } from '../parts/money.js';
import { Refused } from '../parts/refused.js';
import { useAsked } from '../parts/use-records.js';
import { AddingUp } from './goods-looked-at.js';

// what each measure is called, and how its figures and differences are written
const MEASURES = {
  'contribution an hour': { name: 'Left for an hour open', written: (value) => showMoney(Math.round(value)) },
  'pieces a sale': { name: 'Pieces in a sale', written: (value) => value.toFixed(1) },
  'group share': { name: 'Its goods, of 100 pieces', written: (value) => String(Math.round(value)) },
};

/** Opened by a tap: only then all days are added up. */
export function OfferDays({ offer }) {
  const [open, setOpen] = useState(false);
  return html`
    <details class="more review-offer-days" onToggle=${({ target }) => setOpen(target.open)}><summary>Days with it, and days without</summary>
      ${open && html`<${Days} offer=${offer} />`}
    </details>
  `;
}

function Days({ offer }) {
  const [told, trouble] = useAsked(() => offerDays(offer), [offer]);
  if (trouble) return html`<${Refused} ...${trouble} />`;
  if (!told) return html`<${AddingUp} />`;
  return html`
    <div data-with=${told.with} data-without=${told.without}>
      ${told.with + told.without === 0 ? html`<p>${noneInWords(told)}</p>` : html`<${Compared} told=${told} />`}
      ${told.no_hours > 0 && html`<p class="hint" data-no-hours=${told.no_hours}>${countInWords(told.no_hours, 'day')} left out: when it opens and closes is not said. <a href="/settings/market">Markets</a></p>`}
      ${told.uncosted > 0 && html`<p class="hint" data-uncosted=${told.uncosted}>Of ${countInWords(told.uncosted, 'piece')} no batch tells the cost: what is left of them is all they brought.</p>`}
    </div>
  `;
}

function Compared({ told }) {
  const { measures, markets } = told;
  return html`
    <p>${countInWords(told.with, 'day')} on which it was used, ${told.without || 'none'} on which it was not, at ${markets.join(', ')}.</p>
    <table class="review-figures">
      <thead><tr><th scope="col">On such a day</th><th scope="col">with it</th><th scope="col">without</th></tr></thead>
      <tbody>${measures.map((row) => html`<${Measure} key=${row.measure} row=${row} />`)}</tbody>
    </table>
    <p class="hint">Left is what stays of takings, without tax, after material, fees and card. Days differ in weather, season and people, too: this says whether they differ, not what made them.</p>
  `;
}

function Measure({ row }) {
  const { name, written } = MEASURES[row.measure];
  const shown = (value) => (value === null ? '–' : written(value));
  return html`
    <tr data-measure=${row.measure} data-differs=${String(row.differs)}>
      <th scope="row">${name}<small>${differenceInWords(row, written)}</small></th>
      <td>${shown(row.with)}</td>
      <td>${shown(row.without)}</td>
    </tr>
  `;
}

function differenceInWords({ low, high, differs }, written) {
  if (differs === null) return 'Too few days to say whether they differ: two of each at least, and not all alike.';
  const [least, most] = low >= 0 ? [low, high] : [-high, -low];
  if (differs) return `Differs: ${written(least)} to ${written(most)} ${low >= 0 ? 'more' : 'less'} with it, in 95 of 100 such comparisons.`;
  return `No clear difference: from ${written(-low)} less to ${written(high)} more with it.`;
}

const noneInWords = ({ no_hours: unsaid }) => (unsaid ? 'No day of it can be compared yet.' : 'It was used on no market day yet.');
