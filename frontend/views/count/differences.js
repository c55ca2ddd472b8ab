/* How a count and the books differ: row by row, and all together. */
import { html } from 'htm/preact';
import { showMoney } from '../parts/money.js';
import { keyOf, piecesInWords, thingInWords } from './things.js';

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
      <div><dt>Right, to within 3 %</dt><dd class="number">${Math.floor(accuracy)} %</dd></div>
      <div><dt>Missing</dt><dd class="number">${piecesInWords(missing)}, ${showMoney(missingValue)}</dd></div>
      <div><dt>Too many</dt><dd class="number">${piecesInWords(extra)}, ${showMoney(extraValue)}</dd></div>
    </dl>
  `;
}
