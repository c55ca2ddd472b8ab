/* The sale just kept: how it was paid, what to give back, and ten seconds to undo it. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';

const UNDO_MS = 10000;
const PAID = { cash: 'in cash', card: 'by card', other: 'otherwise', none: 'swapped' };

function paidInWords({ payment, amount, back }) {
  if (payment === 'none') return 'Swapped';
  return `${showMoney(amount)} ${back ? 'given back ' : ''}${PAID[payment]}`;
}

/** `asks`: what is to be tapped, where that is no sale. */
export function LastSale({ last, forget, asks }) {
  const [late, setLate] = useState(false);
  useEffect(() => {
    setLate(false);
    const timer = setTimeout(() => setLate(true), UNDO_MS);
    return () => clearTimeout(timer);
  }, [last?.id]);
  if (!last || (asks && late)) return html`<p class="hint">${asks ?? 'Tap what is sold, then how it was paid'}.</p>`;
  return html`
    <div class="sell-last-sale" role="status" data-sale=${last.id}>
      <p><strong>${paidInWords(last)}</strong> <${KeptState} id=${last.id} /></p>
      ${
        last.way?.change > 0 &&
        html`
        <p class="sell-change">Give back <strong class="number">${showMoney(last.way.change)}</strong> ${last.way.pieces.length > 0 && html`<small>${last.way.pieces.map(({ value, count }) => `${count} × ${showMoney(value)}`).join(', ')}</small>`}</p>
      `
      }
      ${!late && html`<button type="button" data-undo onClick=${forget}>Undo</button>`}
    </div>
  `;
}
