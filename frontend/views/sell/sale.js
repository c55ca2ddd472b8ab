/* One sale: what was in it, what was given back of it, and what may still be done about it. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { today } from '../../data/clock.js';
import { factById, factsWithVoids } from '../../data/facts.js';
import { dayInWords, nameOf, timeInWords } from '../../data/naming.js';
import { records } from '../../data/records.js';
import { voids } from '../../data/stock.js';
import { refund, refundOf, sellingDay, stall, stateAgain, takeBack } from '../../data/till.js';
import { Choice } from '../parts/choice.js';
import { KeptState } from '../parts/kept-state.js';
import { paymentInWords, showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed, useFollowing } from '../parts/use-records.js';
import { goodsInWords, lineInWords } from './today.js';
import { mayVoid, VoidRefund } from './void-refund.js';

/** Where goods that come back go. */
export const GOODS = [
  ['table', 'Back on the table'],
  ['spoilt', 'Spoilt'],
];
/** How money is given back. */
export const BACK_IN = [
  ['cash', 'Cash'],
  ['card', 'Card'],
  ['other', 'Other'],
];

export function Sale({ id }) {
  const told = useFollowed(() => readSale(id), [id]);
  if (!told) return html`<h1>Sale</h1>`;
  const { sale, voided, refunds, left } = told;
  if (!sale) return html`<h1>Sale</h1><p class="lead">There is no such sale on this phone.</p>`;
  const when = sale.day === today() ? '' : `, ${dayInWords(sale.day)}`;
  return html`
    <h1>Sale at ${timeInWords(sale.at)}${when}</h1>
    <p class="lead">${showMoney(sale.amount)} ${paymentInWords(sale)} <${KeptState} id=${id} /></p>
    <ul class="lines">${sale.lines.map((line) => html`<li><span>${lineInWords(line)}</span> <span class="number">${showMoney(line.total)}</span></li>`)}</ul>
    ${refunds.length > 0 && html`<${GivenBack} refunds=${refunds} />`}
    ${
      voided
        ? html`<p class="lead" data-voided>Void.</p>`
        : html`
      ${left.left_amount > 0 && left.left.some((pieces) => pieces > 0) && html`<${Refund} key=${refunds.length} sale=${sale} refunds=${refunds} left=${left.left} />`}
      <${Void} sale=${sale} refunds=${refunds} />
    `
    }
  `;
}

async function readSale(id) {
  const [sale, voided, all] = await Promise.all([factById(id), voids(), factsWithVoids('refund')]);
  if (!sale) return {};
  const refunds = all.filter((one) => one.sale === id && !one.never).reverse();
  return { sale, voided: voided[id], refunds, left: await refundOf(sale, null, refunds) };
}

function GivenBack({ refunds }) {
  return html`
    <ul class="lines" data-given-back=${refunds.reduce((sum, { amount }) => sum + amount, 0)}>
      ${refunds.map(
        (one) => html`<li key=${one.id}><span>given back ${timeInWords(one.at)}, ${paymentInWords(one)}
          <small>${one.lines.map(lineInWords).join(', ')}</small></span>
          <span class="number">${showMoney(-one.amount)}</span><${KeptState} id=${one.id} /><${VoidRefund} refund=${one} /></li>`,
      )}
    </ul>
  `;
}

function Void({ sale, refunds }) {
  const [reason, setReason] = useState('');
  const again = sale.day === sellingDay() ? () => saying('Recorded again', () => stateAgain(sale)) : null;
  const never = useOnce(() => saying('The sale is void', () => takeBack('sale', sale.id, reason.trim()), again));
  if (refunds.length)
    return html`<p class="hint">Money was given back for this sale${refunds.every(mayVoid) ? ': void that first' : ', so it cannot be voided here'}.</p>`;
  if (!mayVoid(sale)) return html`<p class="hint">A sale of another day is voided on an owner's phone.</p>`;
  return html`
    <section class="plain">
      <h2>Void</h2>
      <div class="field">
        <label for="void-reason">Why</label>
        <span class="control"><input id="void-reason" name="reason" maxlength="200" value=${reason} onInput=${(event) => setReason(event.target.value)} /></span>
      </div>
      <p><button type="button" data-void onClick=${never}>Void the sale</button></p>
    </section>
  `;
}

// `left`: pieces of each line that did not come back yet, as far as this phone knows
function Refund({ sale, refunds, left }) {
  const [back, setBack] = useState(left);
  const [goods, setGoods] = useState('table');
  const [payment, setPayment] = useState(sale.payment);
  const [worth, isOfNow] = useFollowing(() => refundOf(sale, back, refunds), [back.join()]);
  // with no stall open, and none known from the sale, somebody must say which box it comes out of
  const boxes = payment === 'cash' && !stall() && !sale.box ? records('cash-box') : [];
  const [box, setBox] = useState(null);
  const give = useOnce(() =>
    saying(
      `${showMoney(worth.amount)} given back`,
      () => refund(sale, worth, payment, goods, boxes.length ? (box ?? boxes[0].id) || null : null),
      (id) => saying('Not given back', () => takeBack('refund', id)),
    ),
  );
  return html`
    <section class="plain" data-refund>
      <h2>Give money back</h2>
      <ul class="lines">
        ${sale.lines.map(
          (line, index) => html`
          <li data-comes-back=${back[index]}><span>${lineInWords({ ...line, quantity: back[index] })}${left[index] < line.quantity && html` <small>${left[index]} of ${line.quantity} left</small>`}</span>
            <${Stepper} name=${`${goodsInWords(line)} coming back`} value=${back[index]} most=${left[index]} set=${(pieces) => setBack(back.with(index, pieces))} /></li>
        `,
        )}
      </ul>
      <div class="opening">
        <${Choice} id="refund-goods" name="goods" label="The goods are" value=${goods} set=${setGoods} choices=${GOODS} />
        <${Choice} id="refund-payment" name="payment" label="Given back in" value=${payment} set=${setPayment} choices=${BACK_IN} />
        ${boxes.length > 0 && html`<${Choice} id="refund-box" name="box" label="Out of" value=${box ?? boxes[0].id} set=${setBox} choices=${[...boxes.map((one) => [one.id, nameOf('cash-box', one)]), ['', 'no box']]} />`}
        <button type="button" class="main" disabled=${!isOfNow || !worth?.amount} onClick=${give}>Give back ${showMoney(worth?.amount ?? 0)}</button>
      </div>
    </section>
  `;
}
