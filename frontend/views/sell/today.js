/* Today's sales, the latest first; a void or a refund begins here. */
import { html } from 'htm/preact';
import { today } from '../../data/clock.js';
import { factsOfDay } from '../../data/facts.js';
import { nameOf, timeInWords } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { voids } from '../../data/stock.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { useFollowed } from '../parts/use-records.js';

export function SalesToday() {
  const told = useFollowed(async () => {
    const [facts, voided] = await Promise.all([factsOfDay(today()), voids()]);
    return { sales: facts.filter((fact) => fact.kind === 'sale').reverse(), voided };
  }, []);
  return html`
    <h1>Today's sales</h1>
    ${told?.sales.length === 0 && html`<p class="lead">None yet.</p>`}
    <ul class="lines" data-sales=${told?.sales.length ?? ''}>
      ${told?.sales.map((sale) => html`<${Row} key=${sale.id} sale=${sale} voided=${told.voided[sale.id]} />`)}
    </ul>
  `;
}

function Row({ sale, voided }) {
  return html`
    <li data-sale=${sale.id} data-voided=${voided || undefined}>
      <a class="to-record" href=${`/sell/sale/${sale.id}`}>
        <span>${timeInWords(sale.at)} · ${showMoney(sale.amount)} ${sale.payment === 'none' ? 'swap' : sale.payment}${voided ? ' · void' : ''}
          <small>${sale.lines.map(lineInWords).join(', ')}</small></span>
      </a>
      <${KeptState} id=${sale.id} />
    </li>
  `;
}

/** What a line of a sale was: 2 × Everyday Fog gauze. */
export function lineInWords({ product, size, name, quantity }) {
  const what = name || nameOf('product', recordById('product', product)) || nameOf('piece', recordById('piece', size)) || 'something';
  return `${quantity} × ${what}`;
}
