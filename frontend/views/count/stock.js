/* What is where, now or at any time before; and what leaves a place without money. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { today } from '../../data/clock.js';
import { lastPlace } from '../../data/counts.js';
import { countInWords, nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { takeBack, todaysPlace } from '../../data/till.js';
import { Choice } from '../parts/choice.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { Missing } from '../parts/way-back.js';
import { groupsOf, PlaceChoice, useStockAt } from './things.js';

export function WhatIsWhere() {
  const known = records('place');
  const [place, setPlace] = useState(() => [todaysPlace(), lastPlace()].find((id) => known.some((one) => one.id === id)) ?? known[0]?.id);
  const [at, setAt] = useState('');
  if (!known.length)
    return html`<h1>Stock by place</h1><${Missing} kind="place" says="There is no place yet. Say where your stock is: a shelf at home, a stall." does="Add a place" />`;
  return html`
    <h1>Stock by place</h1>
    <div class="opening no-print">
      <${PlaceChoice} id="stock-place" label="Where" value=${place} set=${setPlace} />
      <div class="field">
        <label for="stock-at">When</label>
        <span class="control"><input id="stock-at" type="datetime-local" value=${at} onInput=${({ target }) => setAt(target.value)} /></span>
        ${at && html`<button type="button" class="quiet" onClick=${() => setAt('')}>Now</button>`}
      </div>
    </div>
    <${Held} key=${place + at} place=${place} at=${new Date(at).getTime() || null} />
    ${!at && html`<${SetAside} place=${place} />`}
  `;
}

function Held({ place, at }) {
  const pieces = useStockAt(place, at);
  if (!pieces) return html`<p class="lead" role="status">Working it out …</p>`;
  const groups = groupsOf((key) => pieces.has(key)).map((group) => ({ ...group, things: group.things.filter((thing) => pieces.has(thing.key)) }));
  const shown = groups.filter(({ things }) => things.some((thing) => pieces.get(thing.key)));
  const out = groups.flatMap(({ things }) => things.filter((thing) => thing.product && pieces.get(thing.key) === 0));
  const uncounted = groups.flatMap(({ things }) => things.filter((thing) => pieces.get(thing.key) === null));
  return html`
    ${!shown.length && html`<p class="lead">Nothing is known to be here. <a href="/count">Count it</a>, or <a href="/count/pack">pack</a> something for it.</p>`}
    ${shown.map(
      ({ size, name, things }) => html`
      <section class="counts" key=${size}>
        <h2>${name} <span class="number">${countInWords(
          things.reduce((sum, thing) => sum + pieces.get(thing.key), 0),
          'piece',
        )}</span></h2>
        <ul class="lines">
          ${things.filter((thing) => pieces.get(thing.key)).map((thing) => html`<${Row} key=${thing.key} thing=${thing} quantity=${pieces.get(thing.key)} />`)}
        </ul>
      </section>
    `,
    )}
    ${uncounted.length > 0 && html`<p class="hint" data-uncounted=${uncounted.length}>Never counted here: ${uncounted.map((thing) => thing.full).join(', ')}.</p>`}
    ${out.length > 0 && html`<p class="hint" data-none=${out.length}>None left: ${out.map((thing) => thing.full).join(', ')}.</p>`}
  `;
}

function Row({ thing, quantity }) {
  return html`
    <li data-thing=${thing.key} data-quantity=${quantity}>
      <span>${thing.size ? `${Math.abs(quantity)} with the cloth not named` : thing.name}
        ${quantity < 0 && html`<small>${thing.size ? 'sold; the next count says of which' : `${-quantity} more went out than were here: count it`}</small>`}</span>
      <strong class="number">${quantity < 0 ? `−${-quantity}` : quantity}</strong>
    </li>
  `;
}

const REASONS = { spoilt: 'Spoilt', given: 'Given away', lost: 'Lost', found: 'Found again' };

function SetAside({ place }) {
  const products = records('product');
  const [product, setProduct] = useState(products[0]?.id);
  const [quantity, setQuantity] = useState(1);
  const [reason, setReason] = useState('spoilt');
  const name = nameOf('product', recordById('product', product));
  const keep = useOnce(async () => {
    const said = `${quantity} × ${name}: ${REASONS[reason].toLowerCase()}`;
    const back = (id) => saying(`${name}: taken back`, () => takeBack('set-aside', id));
    if (await saying(said, () => state('set-aside', { day: today(), place, product, quantity, reason }), back)) setQuantity(1);
  });
  if (!products.length) return null;
  return html`
    <details class="more">
      <summary>Spoilt, given away, lost or found</summary>
      <form class="opening" onSubmit=${keep} data-set-aside>
        <${Choice} id="aside-product" label="What" value=${product} set=${setProduct} choices=${products.map((one) => [one.id, nameOf('product', one)])} />
        <${Choice} id="aside-reason" label="What became of it" value=${reason} set=${setReason} choices=${Object.entries(REASONS)} />
        <${Stepper} name=${name} value=${quantity} set=${setQuantity} />
        <button type="submit" class="main" disabled=${!quantity}>Record</button>
      </form>
    </details>
  `;
}
