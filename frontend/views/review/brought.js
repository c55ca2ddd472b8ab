/* What of each to bring, how likely it sells out, and the days behind that: small bars with the numbers beside them. */
import { html } from 'htm/preact';
import { countInWords, dateInWords, nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { marketOf } from '../../data/reviewing.js';
import { showMoney } from '../parts/money.js';
import { UnboughtOf } from './unbought.js';

/** Each product of `next`, as the core tells it, with so many `pieces` of it in the box. */
export function Brought({ next, pieces, booking }) {
  const days = recordById('booking', booking)?.days ?? [];
  const such = days.length === 1 ? `${new Date(`${days[0]}T12:00`).toLocaleDateString('en-GB', { weekday: 'long' })}s` : 'markets';
  const rows = next.products.map((product, index) => ({ product, bring: pieces[index] }));
  const sizes = [...new Set(rows.map(({ product }) => sizeOf(product)))];
  const none = rows.filter(({ product }) => !product.stock);
  return html`
    ${sizes.map((size) => html`<${OfSize} key=${size} size=${size} such=${such} unbought=${next.unbought} rows=${rows.filter(({ product }) => product.stock && sizeOf(product) === size)} />`)}
    ${
      none.length > 0 &&
      html`<section class="plain"><h2>None in stock</h2>
      <ul class="lines">${none.map(({ product }) => html`<li key=${product.product} data-none=${product.product}><span>${nameOfProduct(product)}</span> <small>about ${Math.round(product.mean)} wanted</small></li>`)}</ul></section>`
    }
  `;
}

const sizeOf = ({ product }) => recordById('product', product)?.size;
const nameOfProduct = ({ product }) => nameOf('product', recordById('product', product));

function OfSize({ size, rows, such, unbought }) {
  if (!rows.length) return null;
  const all = rows.reduce((sum, { bring }) => sum + bring, 0);
  return html`
    <section class="plain">
      <h2>${nameOf('piece', recordById('piece', size)) || 'Other'} <small>${all}</small></h2>
      <div class="results">${rows.map((row) => html`<${Row} key=${row.product.product} such=${such} unbought=${unbought[row.product.product]} ...${row} />`)}</div>
    </section>
  `;
}

function Row({ product, bring, such, unbought }) {
  const { product: id, sell_out: chances, left, stock, mean, low, high } = product;
  const record = recordById('product', id);
  const name = record.name || nameOf('cloth', recordById('cloth', record.cloth)) || nameOfProduct(product);
  return html`
    <details class="why output review-brought" data-bring-of=${id} data-bring=${bring} data-sell-out=${chances[bring]}>
      <summary class="said"><span class="label">${name}
          <small>${sellsOut(chances[bring], bring, such)}${bring > 0 ? `; ${home(left[bring])}` : ''}</small></span>
        <strong class="number">${bring}</strong><span class="why-word">why</span></summary>
      <div class="why-told">
        <p>${wanted(mean, low, high)} ${stock} in stock.</p>
        <p>${leaves(product)}</p>
        <${UnboughtOf} names=${unbought} />
        <${Days} days=${product.days} />
      </div>
    </details>
  `;
}

/** The chance that it sells out, as one would say it of days one knows. */
function sellsOut(chance, bring, such) {
  if (!bring) return 'none comes';
  if (chance < 5) return 'hardly ever sells out';
  if (chance > 95) return 'nearly always sells out';
  return `sells out in ${Math.min(9, Math.max(1, Math.round(chance / 10)))} of 10 such ${such}`;
}

const home = (left) => (left < 0.5 ? 'hardly any come home' : `about ${countInWords(Math.round(left), 'comes', 'come')} home`);

const wanted = (mean, low, high) =>
  low === high ? `About ${low} wanted.` : `Probably ${low} to ${high} are wanted, ${Math.round(mean)} on average.`;

function leaves({ gain, cost, price, kept }) {
  const costs = cost === null ? 'what it costs is not known yet' : `it costs ${showMoney(cost, 'money_each')}`;
  const offers = Math.round(kept) < 100 ? `, ${Math.round(kept)} % of that with offers` : '';
  return `One sold leaves ${showMoney(gain)}: the price is ${showMoney(price)}${offers}, ${costs}, tax and fees taken off.`;
}

const STEP = 12;
const WIDE = 9;

function Days({ days }) {
  if (!days.length) return html`<p class="hint">No day with it is recorded: it is taken to be like the others of its size.</p>`;
  const most = Math.max(1, ...days.map(({ sold }) => sold));
  const high = (sold) => Math.max(0.5, (40 * sold) / most);
  return html`
    <svg class="review-days" viewBox=${`0 0 ${days.length * STEP} 42`} preserveAspectRatio="xMinYMid" aria-hidden="true">${days.map(
      ({ sold, sold_out: out }, index) =>
        html`<rect data-sold-out=${out || undefined} x=${index * STEP + 1} y=${41 - high(sold)} width=${WIDE} height=${high(sold)} />`,
    )}</svg>
    <ul>${days.map((one) => html`<li data-day=${one.day} data-sold=${one.sold} data-sold-out=${one.sold_out || undefined}>${dayInWords(one)}</li>`)}</ul>
    ${days.some(({ sold_out: out }) => out) && html`<p class="hint">Hollow bars sold out: more would have been bought.</p>`}
  `;
}

function dayInWords({ day, booking, here, sold, hours, asked, sold_out: out }) {
  const where = here ? '' : `, ${marketOf(booking)}`;
  const gone = out
    ? `, sold out after ${hours === null ? 'the last hour' : hoursInWords(hours)}`
    : hours === null
      ? ''
      : `, there for ${hoursInWords(hours)}`;
  return `${dateInWords(day)}${where}: ${sold} sold${gone}${asked ? `, ${asked} asked for` : ''}`;
}

const hoursInWords = (hours) => `${Math.floor(hours)} h ${String(Math.floor((hours * 60) % 60)).padStart(2, '0')}`;
