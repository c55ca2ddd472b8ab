/* The basket: its lines, the offers it uses, its total, and one tap to pay. */
import { countInWords } from '../../data/naming.js';
import { useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { mayEdit, recordById } from '../../data/records.js';
import { emptyBasket, mayGiveBack, withPieces } from '../../data/till.js';
import { useArrows } from '../parts/arrows.js';
import { showMoney } from '../parts/money.js';
import { say } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { thereAndBack } from '../parts/way-back.js';
import { Discount } from './more.js';

/** `goOn`, while what comes back is tapped: leads to what goes out for it. */
export function Basket({ till, goOn }) {
  // what has the dock beside the total: to pay, the lines alone, or a discount
  const [view, setView] = useState('pay');
  const offers = useRef();
  const arrows = useArrows(offers);
  const {
    change,
    shown: { made, price },
  } = till;
  // until its price is there, the offers of the last one keep their room
  const known = useRef(null);
  known.current = price ?? known.current;
  const pieces = [...made.lines, ...made.returned].reduce((sum, { quantity }) => sum + quantity, 0);
  const empty = () => {
    change(emptyBasket);
    say('The basket is empty', { undo: () => change((now) => (now.lines.length ? now : made)) });
  };
  const toggle = (other) => setView(view === other ? 'pay' : other);
  return html`
    ${view !== 'discount' && html`<${Lines} till=${till} />`}
    ${view === 'discount' && html`<${Discount} till=${till} done=${() => setView('pay')} />`}
    ${price?.full && html`<p class="hint" data-full>There are more offers than can be used together, so none is. <a href="/settings/offer">Offers</a></p>`}
    ${price?.incomplete.map((offer) => html`<p class="hint" key=${offer.id} data-incomplete=${offer.id}>${offer.name} does not say what it gives, so it is not used. ${mayEdit('offer') ? html`<a href=${thereAndBack(`/settings/offer/${offer.id}`)}>Say it</a>` : "An owner's phone says it."}</p>`)}
    ${
      view !== 'discount' &&
      html`<div class="sell-offers" role="toolbar" aria-label="Offers and discounts" ref=${offers} ...${arrows}>
        ${known.current && html`<${Offers} till=${till} uses=${known.current.uses} late=${!price} />`}
        <button type="button" tabindex="-1" class="chip" data-discount onClick=${() => toggle('discount')}>Discount</button>
        <button type="button" tabindex="-1" class="chip" data-empty onClick=${empty}>Empty the basket</button>
      </div>`
    }
    <p class="total sell-total">
      <button type="button" class="quiet" data-pieces=${pieces} aria-expanded=${view === 'lines'} onClick=${() => toggle('lines')}>${countInWords(pieces, 'piece')}</button>
      ${made.lines.length > 0 && html`<${Due} price=${price} swap=${made.returned.length > 0} />`}</p>
    ${view === 'pay' ? html`<${Pay} till=${till} goOn=${goOn} />` : html`<button type="button" class="main" data-back onClick=${() => setView('pay')}>Back to paying</button>`}
  `;
}

function Due({ price, swap }) {
  const words = swap && price ? DUE[Math.sign(price.due)] : 'Total';
  return html`<span>${words}</span>
    <output class="number" data-total=${price?.due ?? ''}>${price ? showMoney(Math.abs(price.due)) : '…'}</output>`;
}

const DUE = { 1: 'Swap, to pay', 0: 'Even swap', [-1]: 'Swap, to give back' };

function Lines({
  till: {
    change,
    shown: { made, price },
  },
}) {
  const put = (line, quantity, list) => change((now) => withPieces(now, line, quantity - piecesOf(now[list], line), list));
  const list = useRef();
  const arrows = useArrows(list);
  // in a swap a line's part of what is paid is no price of it
  return html`
    <ul class="sell-basket" ref=${list} ...${arrows}>
      ${made.lines.map((line, index) => html`<${Line} key=${line.key} line=${line} total=${made.returned.length ? undefined : price?.lines[index]?.total} put=${(quantity) => put(line, quantity, 'lines')} />`)}
      ${made.returned.map((line) => html`<${Line} key=${`back ${line.key}`} line=${line} back put=${(quantity) => put(line, quantity, 'returned')} />`)}
    </ul>
  `;
}

const piecesOf = (lines, { key }) => lines.find((line) => line.key === key)?.quantity ?? 0;

function Line({ line, total, put, back = false }) {
  return html`
    <li data-line=${line.key}>
      <span>${back && 'back: '}${line.name}</span>
      <${Stepper} tabindex="-1" name=${line.name} value=${line.quantity} set=${put} />
      <span class="number">${total === undefined ? '' : showMoney(total)}</span>
    </li>
  `;
}

// in one line, whatever stands before it
const less = (amount) => `−\u00a0${showMoney(amount)}\u00a0×`;

// offers apply by themselves; a tap takes one off this basket, or puts it back, as it does with a discount
function Offers({
  till: {
    change,
    shown: { made },
  },
  uses,
  late,
}) {
  const cheaper = made.lines.filter((line) => line.off > 0);
  const refuse = (id) => change((now) => ({ ...now, refused: [...now.refused, id] }));
  const allow = (id) => change((now) => ({ ...now, refused: now.refused.filter((other) => other !== id) }));
  const inFull = (key) => change((now) => ({ ...now, lines: now.lines.map((line) => (line.key === key ? { ...line, off: 0, reason: '' } : line)) }));
  return html`
    ${uses
      .filter(({ id }) => !made.refused.includes(id))
      .map(
        (
          use,
        ) => html`<button type="button" tabindex="-1" class="chip" data-offer=${use.id} data-late=${late || undefined} aria-label=${`Take the offer off: ${use.name}`}
      onClick=${() => refuse(use.id)}>${use.name}, ${less(use.saving)}</button>`,
      )}
    ${made.refused.map((id) => html`<button type="button" tabindex="-1" class="chip" data-refused=${id} onClick=${() => allow(id)}>Use ${recordById('offer', id)?.name}</button>`)}
    ${cheaper.map(
      ({
        key,
        name,
        off,
        reason,
      }) => html`<button type="button" tabindex="-1" class="chip" data-cheaper=${key} aria-label=${`${name} at its price again`}
      onClick=${() => inFull(key)}>${reason || name}, ${less(off)}</button>`,
    )}
    ${
      made.off > 0 &&
      html`<button type="button" tabindex="-1" class="chip" data-cheaper="" aria-label="The basket at its price again"
      onClick=${() => change((now) => ({ ...now, off: 0, reason: '' }))}>${made.reason || 'Discount'}, ${less(made.off)}</button>`
    }
  `;
}

// as many and as wide as sums usually are: their row is as high before the first price as after it
const USUAL_WAYS = [1000, 2000, 5000].map((tendered) => ({ tendered, change: tendered - 600 }));

function Pay({
  till: {
    pay,
    shown: { made, price },
  },
  goOn,
}) {
  const sums = useRef();
  const arrows = useArrows(sums);
  // what was shown last keeps its room until the price is there: nothing moves under a finger when it comes
  const shown = useRef(USUAL_WAYS);
  if (made.returned.length && price?.due === 0) {
    return html`<div class="sell-pay"><button type="button" class="main" data-pay="none" onClick=${() => pay('none')}>Swap, no money</button></div>`;
  }
  if (price?.due < 0 && !mayGiveBack()) {
    return html`<p class="hint">Money goes back for a sale alone: find it in <a href="/sell/today">Today's sales</a>.</p>`;
  }
  if (!made.lines.length)
    return html`
      ${goOn ? html`<button type="button" class="main" data-goes-out onClick=${goOn}>Now what goes out</button>` : html`<p class="hint" data-no-lines>Tap what goes out for it.</p>`}
      ${mayGiveBack() && html`<p class="hint">Money back without a swap: <a href="/sell/refund">Give money back</a></p>`}
    `;
  const back = price?.due < 0;
  if (price) shown.current = back ? [] : price.cash.ways.slice(1);
  return html`
    <div class="sell-pay" data-lines=${made.lines.length}>
      <button type="button" class="main" data-pay="cash" disabled=${!price} onClick=${() => pay('cash')}>
        ${back ? 'Give back' : 'Cash'} ${price ? showMoney(price.cash.due) : ''}${back ? ' cash' : ''}</button>
      ${
        shown.current.length > 0 &&
        html`<span class="sell-ways" role="toolbar" aria-label="Sums handed over" data-late=${!price || undefined} ref=${sums} ...${arrows}>${shown.current.map(
          (way) => html`
        <button type="button" tabindex="-1" data-pay="cash" data-tendered=${way.tendered} disabled=${!price} onClick=${() => pay('cash', way.tendered)}>
          <span>${showMoney(way.tendered)}</span><small>change ${showMoney(way.change)}</small></button>
      `,
        )}</span>`
      }
      <button type="button" data-pay="card" disabled=${!price} onClick=${() => pay('card')}>Card</button>
      <button type="button" data-pay="other" disabled=${!price} onClick=${() => pay('other')}>Other</button>
    </div>
  `;
}
