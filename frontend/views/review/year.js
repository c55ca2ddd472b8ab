/* A year: takings, costs and profit by month and by market; files for whoever does the books; one printed page. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { FILES, yearFile, yearTold } from '../../data/books.js';
import { today } from '../../data/clock.js';
import { dayInWords, monthInWords } from '../../data/naming.js';
import { mayKnow, records } from '../../data/records.js';
import { marketOf } from '../../data/reviewing.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { shareFile } from '../parts/save-file.js';
import { Refused } from '../parts/refused.js';
import { useAsked } from '../parts/use-records.js';
import { Notes } from './notes.js';
import { Opens } from './opens.js';
import { SummingUp } from './summing-up.js';
import { reportOf } from './told.js';

const CHARGES = {
  goods: 'Material of the pieces sold',
  fees: 'Fees, shares and card',
  travel: 'Travel',
  helpers: 'Helpers at markets',
  expenses: 'Expenses',
  overheads: 'Overheads',
};

export function Year() {
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  return html`<${Shown} />`;
}

function Shown() {
  const [year, setYear] = useState(today().slice(0, 4));
  const [told, trouble] = useAsked(() => yearTold(year), [year]);
  if (trouble) return html`<h1>The year</h1><${Refused} ...${trouble} />`;
  if (!told) return html`<h1>The year</h1><${SummingUp} />`;
  const choices = told.years.map((one) => [one, one]);
  return html`
    <h1>The year ${told.year}</h1>
    ${choices.length > 1 && html`<div class="review-goods no-print"><${Choice} id="year" name="year" label="Which year" value=${year} set=${setYear} choices=${choices} /></div>`}
    <div class="review-report" data-year=${told.year} data-profit=${told.total.profit}>
      <${Total} total=${told.total} />
      <${Notes} notes=${told.notes} />
      <${Months} months=${told.months} />
      <${ByMarket} markets=${told.markets} overheads=${told.total.overheads} />
      <${Rules} />
    </div>
    <${Files} year=${told.year} />
  `;
}

function Total({ total }) {
  return html`
    <section>
      <p class="total"><strong class="number review-figure">${showMoney(total.profit)}</strong> <small>profit, before your own time is paid</small></p>
      <dl class="facts">
        <div><dt>Takings, without tax, less what was given back</dt><dd class="number" data-takings=${total.takings}>${showMoney(total.takings)}</dd></div>
        ${Object.entries(CHARGES)
          .filter(([name]) => total[name])
          .map(
            ([name, words]) =>
              html`<div key=${name}><dt>${words}</dt><dd class="number" data-charge=${name} data-money=${total[name]}>${showMoney(-total[name])}</dd></div>`,
          )}
      </dl>
      <p class="hint">Material bought in the year: <span class="number" data-bought=${total.bought}>${showMoney(total.bought)}</span>. It counts as its pieces are sold.</p>
    </section>
  `;
}

const costsOf = (row) => row.takings - row.profit;

function Months({ months }) {
  const most = Math.max(1, ...months.flatMap(({ takings, profit }) => [takings, Math.abs(profit)]));
  const told = months.filter((month) => month.takings || costsOf(month));
  return html`
    <section class="plain">
      <h2>By month</h2>
      <${Figures} rows=${told} most=${most} keyOf=${({ month }) => month} name=${({ month }) => monthInWords(`${month}-15`).replace(/ \d+$/, '')} opened=${Days} />
    </section>
  `;
}

// costs are what lies between takings and profit
function Figures({ rows, most, keyOf, name, opened }) {
  if (!rows.length) return html`<p class="hint">Nothing yet.</p>`;
  return html`
    <ul class="lines review-rows">${rows.map(
      (row) => html`<li key=${keyOf(row)} data-row=${keyOf(row)} data-takings=${row.takings} data-profit=${row.profit}>
        <${opened} row=${row} name=${name(row)} />
        <svg class="bar review-bars" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
          <rect class="review-taken" width=${(100 * Math.max(0, row.takings)) / most} height="4" />
          <rect class=${row.profit < 0 ? 'review-lost' : 'review-left'} y="4" width=${(100 * Math.abs(row.profit)) / most} height="4" />
        </svg>
        <dl class="review-sums">
          <div><dt>taken</dt><dd class="number">${showMoney(row.takings)}</dd></div>
          <div><dt>costs</dt><dd class="number">${showMoney(costsOf(row))}</dd></div>
          <div><dt>profit</dt><dd class="number">${showMoney(row.profit)}</dd></div>
        </dl></li>`,
    )}</ul>
  `;
}

// a figure opens to the days behind it
function Days({ row, name }) {
  if (!row.days.length) return html`<strong>${name}</strong>`;
  return html`
    <${Opens} said=${html`<strong>${name}</strong>`} word="days">${() => html`<ul class="review-days">${row.days.map(({ day, booking, takings }) => html`<li><a class="to-record" href=${reportOf(day, booking)}>${dayInWords(day)}, ${marketOf(booking)}, ${showMoney(takings)}</a></li>`)}</ul>`}<//>
  `;
}

function ByMarket({ markets, overheads }) {
  const most = Math.max(1, ...markets.flatMap(({ takings, profit }) => [takings, Math.abs(profit)]));
  return html`
    <section class="plain">
      <h2>By market</h2>
      <${Figures} rows=${markets} most=${most} keyOf=${({ market, name }) => market ?? name} name=${({ name }) => name || 'No market'} opened=${Place} />
      ${overheads !== 0 && html`<p class="hint">Overheads, ${showMoney(overheads)}, belong to no market.</p>`}
    </section>
  `;
}

const Place = ({ row, name }) =>
  row.market ? html`<a class="to-record" href=${`/review/markets#${row.market}`}>${name}</a>` : html`<strong>${name}</strong>`;

function Rules() {
  const tax = records('business')[0]?.tax_percent;
  return html`
    <section class="plain review-rules">
      <h2>How it is worked out</h2>
      <ul>
        <li>Takings: sales less what was given back, on the day it happened; void sales are none.
          ${tax ? ` Tax of ${tax} % is inside the prices and taken out.` : ' No tax is set, so none is taken out.'}</li>
        <li>Material: what cloth, elastic, thread and packaging of a piece cost, by the moving weighted average of purchases, from its last 12 batches before the day it was sold; usual losses are in it.</li>
        <li>Travel: kilometres at what one costs you. Helpers: time recorded for a booking, of people with pay of their own.</li>
        <li>Overheads: a twelfth a month of what is paid a year, by the days they ran.</li>
        <li>Left out: your own time, time spent cutting and sewing, stock spoilt or given away, machines bought. Check with whoever does your books what the law wants.</li>
      </ul>
    </section>
  `;
}

function Files({ year }) {
  const save = (file, words) => () => shareFile(`${words} ${year} is written as CSV`, () => yearFile(file, year));
  return html`
    <section class="plain no-print">
      <h2>For the books</h2>
      <p class="next-steps">
        <button type="button" class="main" onClick=${() => print()}>Print the year</button>
        ${FILES.map(([file, words]) => html`<button type="button" key=${file} data-file=${file} onClick=${save(file, words)}>${words}, CSV</button>`)}
      </p>
    </section>
  `;
}
