/* The box: how many pieces it holds, and what becomes of them. It answers while the slider moves. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { showMoney } from '../parts/money.js';
import { Stepper } from '../parts/stepper.js';

/** A box of `capacity` pieces of `most` that are worth their place; `box` as `inBox` tells it. */
export function Box({ most, capacity, box, stock, set }) {
  const { sold, left, more } = box;
  return html`
    <section class="plain review-box" data-capacity=${capacity} data-most=${most}>
      <label for="capacity">Pieces that your boxes hold</label>
      <input id="capacity" class="no-print" type="range" min="1" max=${most} step="1" value=${capacity} aria-valuetext=${countInWords(capacity, 'piece')}
        onInput=${({ target }) => set(Number(target.value))} />
      <${Stepper} name="piece in the boxes" value=${capacity} most=${most} set=${(value) => set(Math.max(1, value))} />
      <p aria-live="polite" data-sell=${sold} data-come-home=${left}>About <strong class="number">${Math.round(sold)}</strong> sell, about <strong class="number">${Math.round(left)}</strong> come home.</p>
      <p class="hint">${moreInWords(capacity, most, stock, more)}</p>
    </section>
  `;
}

function moreInWords(capacity, most, stock, more) {
  if (capacity < most) return more >= 1 ? `Room for one more would bring about ${showMoney(Math.round(more))}.` : '';
  return most < stock ? `Of the ${stock} in stock no more than these would bring anything.` : 'That is all there is in stock.';
}
