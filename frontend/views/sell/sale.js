/* One sale: what was in it, and what may still be done about it. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { factById } from '../../data/facts.js';
import { timeInWords } from '../../data/naming.js';
import { voids } from '../../data/stock.js';
import { refund, refundOf, undo } from '../../data/till.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { lineInWords } from './today.js';

const GOODS = { table: 'Back on the table', spoilt: 'Spoilt' };

export function Sale({ id }) {
  const told = useFollowed(async () => ({ sale: await factById(id), voided: (await voids())[id] }), [id]);
  if (!told) return html`<h1>Sale</h1>`;
  const { sale, voided } = told;
  if (!sale) return html`<h1>Sale</h1><p class="lead">There is no such sale on this phone.</p>`;
  return html`
    <h1>Sale at ${timeInWords(sale.at)}</h1>
    <p class="lead">${showMoney(sale.amount)} ${sale.payment === 'none' ? 'swapped' : sale.payment} <${KeptState} id=${id} /></p>
    <ul class="lines">${sale.lines.map((line) => html`<li><span>${lineInWords(line)}</span> <span class="number">${showMoney(line.total)}</span></li>`)}</ul>
    ${voided ? html`<p class="lead" data-voided>Void: it never happened.</p>` : html`
      <${Void} sale=${sale} />
      ${sale.amount > 0 && html`<${Refund} sale=${sale} />`}
    `}
  `;
}

function Void({ sale }) {
  const [reason, setReason] = useState('');
  const never = useOnce(() => saying('The sale is void', () => undo(sale.id, reason.trim())));
  return html`
    <section class="plain">
      <h2>It never happened</h2>
      <div class="field">
        <label for="void-reason">Why</label>
        <span class="control"><input id="void-reason" name="reason" maxlength="200" value=${reason} onInput=${(event) => setReason(event.target.value)} /></span>
      </div>
      <p><button type="button" data-void onClick=${never}>Void the sale</button></p>
    </section>
  `;
}

function Refund({ sale }) {
  const [back, setBack] = useState(() => sale.lines.map((line) => line.quantity));
  const [goods, setGoods] = useState('table');
  const worth = useWords(() => refundOf(sale, back), [back.join()]);
  const give = useOnce(() => saying(`${showMoney(worth.amount)} given back`, () => refund(sale, worth, goods)));
  return html`
    <section class="plain" data-refund>
      <h2>Give money back</h2>
      <ul class="lines">
        ${sale.lines.map((line, index) => html`
          <li><span>${lineInWords({ ...line, quantity: back[index] })}</span>
            <span class="stepper">
              <button type="button" aria-label="One less comes back" disabled=${back[index] === 0} onClick=${() => setBack(changed(back, index, -1))}>−</button>
              <span class="number">${back[index]}</span>
              <button type="button" aria-label="One more comes back" disabled=${back[index] === line.quantity} onClick=${() => setBack(changed(back, index, 1))}>+</button>
            </span></li>
        `)}
      </ul>
      <div class="field">
        <label for="refund-goods">The goods are</label>
        <span class="control"><select id="refund-goods" name="goods" onChange=${(event) => setGoods(event.target.value)}>
          ${Object.entries(GOODS).map(([value, words]) => html`<option value=${value} selected=${value === goods}>${words}</option>`)}
        </select></span>
      </div>
      <button type="button" class="main" disabled=${!worth.amount} onClick=${give}>Give back ${showMoney(worth.amount ?? 0)}</button>
    </section>
  `;
}

const changed = (back, at, more) => back.map((pieces, index) => (index === at ? pieces + more : pieces));
