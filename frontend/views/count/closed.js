/* A closed count: how it came out, who counted what, and counting again. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { today } from '../../data/clock.js';
import { beginCount, countsOfDay, phoneInWords, resultOf, soFar, turnInWords, turnOf } from '../../data/counts.js';
import { factById } from '../../data/facts.js';
import { countInWords, dayInWords, timeInWords } from '../../data/naming.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { useFollowed } from '../parts/use-records.js';
import { inOrder, keyOf, placeInWords, thingInWords } from './things.js';

export function ClosedCount({ id }) {
  const { route } = useLocation();
  const told = useFollowed(() => readClosed(id), [id]);
  if (!told) return html`<h1>Count</h1><p class="lead" role="status">Working it out …</p>`;
  const { close, which, result, counted } = told;
  if (!close) return html`<h1>Count</h1><p class="lead">There is no such count on this phone.</p>`;
  const differing = inOrder(result.rows).filter((row) => row.difference || row.reason);
  const firsts = result.rows.filter((row) => row.first).length;
  const again = async () => {
    const next = (await countsOfDay(close.place)).find((count) => !count.close && /^\d/.test(count.which));
    await beginCount(close.place, next.which);
    route('/count');
  };
  return html`
    <h1>${which ? turnInWords(which) : 'Count'}</h1>
    <p class="lead">${placeInWords(close.place)}, ${dayInWords(close.day)}, closed at ${timeInWords(close.at)} <${KeptState} id=${id} /></p>
    <${Totals} result=${result} />
    <ul class="count-differences" data-differences=${differing.length}>
      ${differing.map((row) => html`<${Difference} key=${keyOf(row)} row=${row}>${row.reason && html`<p>${row.reason}</p>`}<//>`)}
    </ul>
    ${firsts > 0 && html`<p class="lead" data-first=${firsts}>${firsts === result.rows.length ? 'The first count here: the books begin with it.' : `${firsts} counted here for the first time: taken into the books.`}</p>`}
    ${!differing.length && firsts < result.rows.length && html`<p class="lead">All of it agrees with the books.</p>`}
    <section class="plain">
      <h2>Counted by</h2>
      <ul class="lines">${counted.phones.map(
        ({ phone, lines, pieces }) => html`
        <li data-phone=${phone}><span>${phoneInWords(phone)}</span> <span class="number">${countInWords(lines, 'line')}, ${countInWords(pieces, 'piece')}</span></li>`,
      )}</ul>
      ${counted.late > 0 && html`<p class="hint" data-late=${counted.late}>${countInWords(counted.late, 'line')} came after the close, and joined it.</p>`}
      ${counted.differing > 0 && html`<p class="hint" data-differing=${counted.differing}>This count was closed more than once, and not alike. The last close, at ${timeInWords(counted.closed_at)}, stands.</p>`}
    </section>
    ${
      close.day === today() &&
      html`<p class="hint">A closed count cannot be changed. Count again; the last count stands.</p>
      <p><button type="button" data-count-again onClick=${again}>Count ${placeInWords(close.place)} again</button></p>`
    }
  `;
}

async function readClosed(id) {
  const close = await factById(id);
  if (!close) return {};
  const [which, result, counted] = await Promise.all([turnOf(close), resultOf(close, {}, close.at), soFar(close)]);
  return { close, which, result, counted };
}

export function Difference({ row, children }) {
  const { difference, value } = row;
  return html`
    <li data-row=${keyOf(row)} data-difference=${difference}>
      <p><strong>${thingInWords(row)}</strong> <strong class="number">${differenceInWords(difference)}</strong></p>
      <p><small>${row.expected} expected, ${row.seen ? `${row.counted} counted` : 'not counted'}${row.settled > 0 && html`; ${row.settled} sold without naming the cloth taken off`}</small>
        ${value !== null && difference !== 0 && html`<small class="number">${showMoney(value)}</small>`}</p>
      ${children}
    </li>
  `;
}

function differenceInWords(difference) {
  if (!difference) return 'agrees';
  return difference < 0 ? `${-difference} missing` : `${difference} too many`;
}

export function Totals({ result }) {
  if (result.accuracy === null) return null;
  const { accuracy, missing, extra, missing_value: missingValue, extra_value: extraValue } = result;
  return html`
    <dl class="facts" data-accuracy=${accuracy} data-missing=${missing}>
      <div><dt>Lines right (±3 %)</dt><dd class="number">${Math.floor(accuracy)} %</dd></div>
      <div><dt>Missing</dt><dd class="number">${countInWords(missing, 'piece')}, ${showMoney(missingValue)}</dd></div>
      <div><dt>Too many</dt><dd class="number">${countInWords(extra, 'piece')}, ${showMoney(extraValue)}</dd></div>
    </dl>
  `;
}
