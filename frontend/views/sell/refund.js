/* Money given back for goods whose sale is not known: what came back, and how much for it. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { goods, mayGiveBack, refund, stall, takeBack } from '../../data/till.js';
import { AmountForm, NOTHING_TYPED, onceKept } from '../parts/amount-form.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { saying } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { BACK_IN, GOODS } from './sale.js';

const ONE = { quantity: 1, goods: 'table', payment: 'cash' };

export function GiveBack() {
  const [tiles] = useState(goods);
  const [made, setMade] = useState({ ...ONE, key: tiles[0]?.key });
  const [typed, type] = useState(NOTHING_TYPED);
  const head = html`<h1>Give money back</h1>`;
  const known = html`<p class="lead">If you know the sale, find it in <a href="/sell/today">Today's sales</a>: what was paid is known there.</p>`;
  if (!mayGiveBack()) return html`${head}${known}<p class="hint">Without a sale, an owner's phone gives money back.</p>`;
  if (!stall()) return html`${head}${known}<p class="hint">Open a stall first: <a href="/sell">Sell</a></p>`;
  if (!tiles.length) return html`${head}<p class="lead">There is nothing that could come back yet. <a href="/sell">Sell</a></p>`;
  const set = (more) => setMade({ ...made, ...more });
  const keep = async (amount) => {
    const { product = null, size = null } = tiles.find(({ key }) => key === made.key);
    const lines = [{ product, size, name: '', quantity: made.quantity, total: amount }];
    const back = (id) => saying('Not given back', () => takeBack('refund', id));
    if (await saying(`${showMoney(amount)} given back`, () => refund(null, { lines, amount }, made.payment, made.goods), back)) type(onceKept(typed));
  };
  return html`
    ${head}${known}
    <div class="opening" data-give-back>
      <${Choice} id="back-what" name="what" label="What comes back" value=${made.key} set=${(key) => set({ key })} choices=${tiles.map(({ key, name }) => [key, name])} />
      <${Stepper} name="pieces" value=${made.quantity} set=${(quantity) => set({ quantity: Math.max(1, quantity) })} />
      <${Choice} id="back-goods" name="goods" label="The goods are" value=${made.goods} set=${(to) => set({ goods: to })} choices=${GOODS} />
      <${Choice} id="back-payment" name="payment" label="Given back in" value=${made.payment} set=${(payment) => set({ payment })} choices=${BACK_IN} />
      <${AmountForm} main name="back" label="How much" done="Give back" typed=${typed} type=${type} keep=${keep} />
    </div>
  `;
}
