/* What Review's screens share. */
import { html } from 'htm/preact';
import { countInWords, nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { Missing } from '../parts/way-back.js';

/** Where a day's report is, or one of its boxes. */
export const reportOf = (day, booking, more = '') => `/review/${day}${more}${booking ? `?booking=${booking}` : ''}`;

/** How many sales and pieces. */
export const countOf = ({ sales, pieces }) => `${countInWords(sales, 'sale')}, ${countInWords(pieces, 'piece')}`;

export const boxName = (box) => nameOf('cash-box', recordById('cash-box', box)) || 'Cash box';

/** How a count differs from what the box should hold. */
export function differenceInWords(difference) {
  if (difference === 0) return 'Exact';
  return `${showMoney(Math.abs(difference))} ${difference < 0 ? 'short' : 'over'}`;
}

/** The cash boxes of a day, all there are where none was used; `whole` with what each should hold. */
export function CashBoxes({ day, booking, boxes, whole }) {
  const shown = boxes.length ? boxes : records('cash-box').map(({ id }) => ({ box: id }));
  if (!shown.length)
    return html`<${Missing} kind="cash-box" says="There is no cash box yet. Add one, to count it at the end of a day." does="Add a cash box" />`;
  return html`<ul class="lines">${shown.map(
    (told) => html`
    <li key=${told.box} data-box=${told.box}>
      <span><strong>${boxName(told.box)}</strong> <small>${told.kept ? differenceInWords(told.difference) : 'not counted yet'}</small></span>
      <span class="next-steps no-print">
        <a class=${told.kept ? 'button' : 'button main'} href=${reportOf(day, booking, `/cash/${told.box}`)}>Cash-up</a>
        <a class="button" href=${reportOf(day, booking, `/moved/${told.box}`)}>In or out</a>
      </span>
      ${whole && told.movements && html`<${Expected} told=${told} />`}
    </li>`,
  )}</ul>`;
}

/** What a box should hold, not said before it was counted; a tap tells why. */
export function Expected({ told }) {
  const because = [
    ['float', told.float],
    ['cash sales', told.cash_sales],
    ['given back', -told.cash_refunds],
    ['paid in', told.paid_in],
    ['taken out', -told.taken_out],
    ['should hold', told.expected],
  ];
  return html`
    <${Why} because=${because}><span class="label">should hold</span>
      ${told.counted_total !== null && html`<span class="number" data-expected=${told.expected}>${showMoney(told.expected)}</span>`}<//>
  `;
}

/** A figure that opens to what it is made of: [words, amount] each. */
export function Why({ because, children }) {
  return html`
    <details class="why">
      <summary class="said">${children}<span class="why-word">why</span></summary>
      <dl class="facts why-told">${because.filter(([, amount]) => amount).map(([words, amount]) => html`<div><dt>${words}</dt><dd class="number">${showMoney(amount)}</dd></div>`)}</dl>
    </details>
  `;
}
