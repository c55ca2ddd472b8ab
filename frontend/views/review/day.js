/* The report of a day at a market, part by part as the core tells it. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { dayInWords, timeInWords } from '../../data/naming.js';
import { bookingsOfDay, dayReport, marketOf, reportFile } from '../../data/reviewing.js';
import { showMoney } from '../parts/money.js';
import { shareFile } from '../parts/save-file.js';
import { useFollowed } from '../parts/use-records.js';
import { CashBoxes, countOf, reportOf, Why } from './told.js';

export function DayReport({ day }) {
  const { query } = useLocation();
  const bookings = useFollowed(() => bookingsOfDay(day), [day]);
  if (!bookings) return html`<h1>${dayInWords(day)}</h1>`;
  const booking = bookings.find((id) => id === query.booking) ?? bookings[0] ?? null;
  return html`
    <h1>${marketOf(booking)}, ${dayInWords(day)}</h1>
    ${
      bookings.length > 1 &&
      html`<p class="next-steps no-print">${bookings.map(
        (other) => html`
      <a class="button" aria-current=${other === booking ? 'page' : undefined} href=${reportOf(day, other)}>${marketOf(other)}</a>`,
      )}</p>`
    }
    <${Report} key=${`${day} ${booking}`} day=${day} booking=${booking} />
  `;
}

function Report({ day, booking }) {
  // what was left takes longer: the rest is there meanwhile
  const [quick, whole] = [false, true].map((left) => useFollowed(() => dayReport(day, booking, left), []));
  const report = whole ?? quick;
  if (!report) return null;
  const { takings, no_box: loose } = report;
  const save = () => shareFile('The day is written as CSV', () => reportFile(day, booking, report));
  return html`
    <div class="review-report" data-report=${day} data-whole=${Boolean(whole)}>
      <${Why} because=${[['taken', takings.taken], ['given back', -takings.given_back], ['takings', takings.amount]]}>
        <strong class="number review-figure" data-takings=${takings.amount}>${showMoney(takings.amount)}</strong> <span class="label">${countOf(takings)}</span><//>
      <div class="review-parts">
      ${report.parts.map((part) => html`<${Part} key=${part.title} ...${part} />`)}
      <section class="plain">
        <h2>Cash boxes</h2>
        <${CashBoxes} day=${day} booking=${booking} boxes=${report.boxes} whole />
        ${loose !== 0 && html`<p class="hint" data-no-box=${loose}>${showMoney(loose)} in cash went into no box.</p>`}
      </section>
      </div>
    </div>
    <p class="next-steps">
      <button type="button" onClick=${() => print()}>Print</button>
      <button type="button" data-csv onClick=${save}>Share or save as CSV</button>
    </p>
  `;
}

function Part({ title, columns, rows }) {
  const [, ...figures] = columns.map(({ figure }) => figure);
  return html`
    <section class="plain" data-part=${title}>
      <h2>${title}</h2>
      <table class="review-figures">
        <thead><tr>${columns.map(({ name }) => html`<th scope="col">${name}</th>`)}</tr></thead>
        <tbody>${rows.map(
          (row) => html`
          <tr data-about=${row.about} data-figures=${JSON.stringify(figures.map((figure) => row[figure]))}>
            <th scope="row"><${Words} row=${row} /></th>
            ${figures.map((figure) => html`<td>${inWords(figure, row[figure])}</td>`)}
          </tr>`,
        )}</tbody>
      </table>
    </section>
  `;
}

function Words({ row: { words, more, at, sale, share } }) {
  const beside = [at && timeInWords(at), more].filter(Boolean).join(', ');
  const said = html`<span>${words}${beside && html` <small>${beside}</small>`}</span>`;
  return html`
    ${sale ? html`<a class="to-record" href=${`/sell/sale/${sale}`}>${said}</a>` : said}
    ${share !== null && html`<svg class="bar" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true"><rect width=${share} height="8" /></svg>`}
  `;
}

function inWords(figure, value) {
  if (value === null) return '–';
  return figure === 'amount' ? showMoney(value) : value;
}
