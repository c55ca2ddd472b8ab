/* What it costs to bring a piece home again: her own figure, and what it changes. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { mostCarry } from '../../data/next-market.js';
import { AmountForm, NOTHING_TYPED, onceKept } from '../parts/amount-form.js';
import { showMoney } from '../parts/money.js';

/** `set(minor units)` takes what is typed; as far as nobody typed anything it is nothing. */
export function Carry({ value, set }) {
  const [typed, type] = useState(NOTHING_TYPED);
  const keep = (amount) => {
    set(Math.min(amount, mostCarry()));
    type(onceKept(typed));
  };
  return html`
    <details class="why output" data-carry=${value}>
      <summary class="said"><span class="label">Bringing a piece home again costs</span><strong class="number">${showMoney(value)}</strong><span class="why-word">why</span></summary>
      <div class="why-told">
        <p>What does not sell is packed twice, carried twice, perhaps pressed again. A place in the boxes brings what a piece leaves in the cases in which it sells, less this in those in which it does not. The more it costs you, the fewer doubtful pieces come.</p>
        <${AmountForm} name="carry" label="Your figure, for one piece" typed=${typed} type=${type} keep=${keep} done="Use it" />
      </div>
    </details>
  `;
}
