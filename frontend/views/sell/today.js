/* Today's sales and what was given back, the latest first; a void or a refund begins here. */
import { html } from 'htm/preact';
import { factsOfDay } from '../../data/facts.js';
import { nameOf, timeInWords } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { voids } from '../../data/stock.js';
import { sellingDay } from '../../data/till.js';
import { KeptState } from '../parts/kept-state.js';
import { paymentInWords, showMoney } from '../parts/money.js';
import { useFollowed } from '../parts/use-records.js';
import { VoidRefund } from './void-refund.js';

export function SalesToday() {
  const told = useFollowed(async () => {
    const [facts, voided] = await Promise.all([factsOfDay(sellingDay()), voids()]);
    return { rows: facts.filter(({ kind }) => kind === 'sale' || kind === 'refund').reverse(), voided };
  }, []);
  const sales = told?.rows.filter(({ kind }) => kind === 'sale').length;
  return html`
    <h1>Today's sales</h1>
    ${told?.rows.length === 0 && html`<p class="lead">None yet. What is sold on any phone is listed here once it is synced. <a href="/sell">Sell</a></p>`}
    <ul class="lines" data-sales=${sales ?? ''}>
      ${told?.rows.map((row) => html`<${ROWS[row.kind]} key=${row.id} fact=${row} voided=${told.voided[row.id]} />`)}
    </ul>
  `;
}

function SaleRow({ fact: sale, voided }) {
  return html`
    <li data-sale=${sale.id} data-voided=${voided || undefined}>
      <a class="to-record" href=${`/sell/sale/${sale.id}`}>
        <span>${timeInWords(sale.at)} · ${showMoney(sale.amount)} ${paymentInWords(sale)}${voided ? ' · void' : ''}
          <small>${sale.lines.map(lineInWords).join(', ')}</small></span>
      </a>
      <${KeptState} id=${sale.id} />
    </li>
  `;
}

function RefundRow({ fact: refund, voided }) {
  const words = html`<span>${timeInWords(refund.at)} · ${showMoney(-refund.amount)} given back, ${paymentInWords(refund)}${voided ? ' · void' : ''}
    <small>${refund.lines.map(lineInWords).join(', ')}</small></span>`;
  return html`
    <li data-refund=${refund.id} data-voided=${voided || undefined}>
      ${refund.sale ? html`<a class="to-record" href=${`/sell/sale/${refund.sale}`}>${words}</a>` : words}
      <${KeptState} id=${refund.id} />
      ${!refund.sale && !voided && html`<${VoidRefund} refund=${refund} />`}
    </li>
  `;
}

const ROWS = { sale: SaleRow, refund: RefundRow };

/** What a line of a sale was: 2 × Everyday Fog gauze. */
export const lineInWords = (line) => `${line.quantity} × ${goodsInWords(line)}`;

export function goodsInWords({ product, size, name }) {
  return name || nameOf('product', recordById('product', product)) || nameOf('piece', recordById('piece', size)) || 'something';
}
