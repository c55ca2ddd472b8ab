/* The basket: its lines, the offers it uses, its total, and one tap to pay. */
import { html } from 'htm/preact';
import { recordById } from '../../data/records.js';
import { withPieces } from '../../data/till.js';
import { showMoney } from '../parts/money.js';

export function Basket({ till }) {
  const { change, shown: { made, price } } = till;
  return html`
    <ul class="basket">
      ${made.lines.map((line, index) => html`<${Line} key=${line.key} line=${line} total=${price?.lines[index]?.total} add=${(more) => change((now) => withPieces(now, line, more))} />`)}
      ${made.returned.map((line) => html`<${Line} key=${`back ${line.key}`} line=${line} back add=${(more) => change((now) => withPieces(now, line, more, 'returned'))} />`)}
    </ul>
    ${price && html`<${Offers} till=${till} />`}
    ${price?.full && html`<p class="hint" data-full>Too many offers for one group: none is used. <a href="/settings/offer">Offers</a></p>`}
    <p class="total"><span>${made.returned.length ? 'Swap' : 'Total'}</span>
      <output class="number" data-total=${price?.total ?? ''}>${price ? showMoney(price.total) : '…'}</output></p>
    ${made.returned.length ? html`<${Swap} till=${till} />` : html`<${Pay} till=${till} />`}
  `;
}

function Line({ line, total, add, back = false }) {
  return html`
    <li data-line=${line.key}>
      <span>${back && 'back: '}${line.name}</span>
      <span class="stepper">
        <button type="button" aria-label=${`One ${line.name} less`} onClick=${() => add(-1)}>−</button>
        <span class="number">${line.quantity}</span>
        <button type="button" aria-label=${`One ${line.name} more`} onClick=${() => add(1)}>+</button>
      </span>
      <span class="number">${total === undefined ? '' : showMoney(total)}</span>
    </li>
  `;
}

// offers apply by themselves; a tap takes one off this basket, or puts it back, as it does with a discount
function Offers({ till: { change, shown: { made, price } } }) {
  const cheaper = made.lines.filter((line) => line.off > 0);
  if (!price.uses.length && !made.refused.length && !made.off && !cheaper.length) return null;
  const refuse = (id) => change((now) => ({ ...now, refused: [...now.refused, id] }));
  const allow = (id) => change((now) => ({ ...now, refused: now.refused.filter((other) => other !== id) }));
  const inFull = (key) => change((now) => ({ ...now, lines: now.lines.map((line) => (line.key === key ? { ...line, off: 0, reason: '' } : line)) }));
  return html`
    <p class="offers">
      ${price.uses.map((use) => html`<button type="button" class="chip" data-offer=${use.id} aria-label=${`Take the offer off: ${use.name}`}
        onClick=${() => refuse(use.id)}>${use.name}, − ${showMoney(use.saving)} ×</button>`)}
      ${made.refused.map((id) => html`<button type="button" class="chip" data-refused=${id} onClick=${() => allow(id)}>Use ${recordById('offer', id)?.name}</button>`)}
      ${cheaper.map(({ key, name, off, reason }) => html`<button type="button" class="chip" data-cheaper=${key} aria-label=${`${name} at its price again`}
        onClick=${() => inFull(key)}>${reason || name}, − ${showMoney(off)} ×</button>`)}
      ${made.off > 0 && html`<button type="button" class="chip" data-cheaper="" aria-label="The basket at its price again"
        onClick=${() => change((now) => ({ ...now, off: 0, reason: '' }))}>${made.reason || 'Off'}, − ${showMoney(made.off)} ×</button>`}
    </p>
  `;
}

function Pay({ till: { pay, shown: { made, price } } }) {
  const ways = price?.cash.ways ?? [];
  return html`
    <div class="pay" data-lines=${made.lines.length}>
      <button type="button" class="main" data-pay="cash" disabled=${!price} onClick=${() => pay('cash')}>
        Cash ${price ? showMoney(price.cash.due) : ''}</button>
      ${ways.slice(1).map((way) => html`
        <button type="button" data-pay="cash" data-tendered=${way.tendered} onClick=${() => pay('cash', way.tendered)}>
          <span>${showMoney(way.tendered)}</span><small>gives ${showMoney(way.change)}</small></button>
      `)}
      <button type="button" data-pay="card" disabled=${!price} onClick=${() => pay('card')}>Card</button>
      <button type="button" data-pay="other" disabled=${!price} onClick=${() => pay('other')}>Other</button>
    </div>
  `;
}

function Swap({ till: { pay, shown: { price } } }) {
  const even = price && price.back === price.before;
  return html`
    <div class="pay">
      <button type="button" class="main" data-pay="none" disabled=${!even} onClick=${() => pay('none')}>Swap, no money</button>
    </div>
    ${!even && html`<p class="hint">An even swap gives back as much as it takes${price ? `: ${showMoney(price.back)} comes back, ${showMoney(price.before)} goes out` : ''}.</p>`}
  `;
}
