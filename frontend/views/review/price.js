/* Prices side by side: what stays of each, what an hour earns, tax, shops; what an offer costs; how many pay for a market. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { askPrice, goodsToCost, keepPriceChoices, priceChoices, pricesOf, productsOf } from '../../data/costs.js';
import { mayKnow, records } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Refused } from '../parts/refused.js';
import { useAsked, useRecords } from '../parts/use-records.js';
import { Missing, thereAndBack } from '../parts/way-back.js';
import { AddingUp, useGoods } from './goods-looked-at.js';
import { OfferDays } from './offer-days.js';

// a thumb chooses among these sooner than it types
const SHARES = {
  card_share: { label: 'Paid by card', usual: '0', choices: ['0', '25', '50', '75', '100'] },
  wholesale: { label: 'A shop that buys pays less by', usual: '50', choices: ['30', '40', '50', '60'] },
  shop_share: { label: 'A shop that sells for you takes', usual: '40', choices: ['25', '30', '35', '40', '50'] },
};

export function Price() {
  useRecords();
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  if (!goodsToCost().length)
    return html`<h1>Prices</h1><${Missing} kind="product" says="Nothing is sold yet. Say what you make, and its prices are compared here." does="Say what you sell" path="/sell/goods" />`;
  return html`<${OfGoods} />`;
}

function OfGoods() {
  const [goods, choice] = useGoods();
  const [choices, choose] = useState(priceChoices());
  const [told, trouble] = useAsked(async () => goods && { goods, prices: await pricesOf(productsOf(goods), choices) }, [goods, choices]);
  const set = (name, value) => {
    const next = { ...choices, [name]: value };
    choose(next);
    keepPriceChoices(next);
  };
  return html`
    <h1>Prices</h1>
    ${choice}
    ${trouble ? html`<${Refused} ...${trouble} />` : told?.goods !== goods ? html`<${AddingUp} />` : told.prices ? html`<${Told} goods=${goods} prices=${told.prices} />` : html`<p class="lead" data-not-made>No batch of it is finished yet, so what one costs is not known.</p>`}
    ${told?.prices && html`<${Chosen} choices=${choices} set=${set} />`}
  `;
}

function Told({ goods, prices }) {
  const { points, cost, offers, markets, price } = prices;
  return html`
    <p class="lead" data-cost-each=${cost.cost_each}>One costs <strong class="number">${showMoney(cost.cost_each, 'money_each')}</strong>, your time in it. <a href="/review/costs">Costs</a></p>
    <table class="review-figures">
      <thead><tr><th scope="col">At a price of</th><th scope="col">left</th><th scope="col">an hour earns</th></tr></thead>
      <tbody>${points.map((point) => html`<${Point} key=${point.price} point=${point} now=${point.price === price} goods=${goods} />`)}</tbody>
    </table>
    <p><a href=${thereAndBack(`/settings/business/${records('business')[0]?.id ?? 'new'}`)}>Other prices to compare, and tax</a></p>
    <${Offers} offers=${offers} />
    <${Markets} markets=${markets} price=${price} />
  `;
}

function Point({ point: { price, left, hour_earns: hour, net, gross, margin, wholesale, consignment }, now, goods }) {
  const ask = useOnce(() =>
    saying(
      `${showMoney(price)} is asked from today`,
      () => askPrice(productsOf(goods), price),
      (back) => back(),
    ),
  );
  return html`
    <tr data-point=${price} data-left=${left} data-hour=${hour}>
      <th scope="row">${showMoney(price)}${now && html` <small>asked now</small>`}
        ${net !== gross && html`<small>${showMoney(net)} without tax, ${showMoney(gross)} with it</small>`}
        ${margin !== null && html`<small>${percent(margin)} of that is left</small>`}
        <small>a shop that buys pays ${showMoney(wholesale.price)}</small>
        <small>one that sells for you leaves you ${showMoney(consignment.receives)}</small>
        ${!now && html`<button type="button" class="chip" aria-label=${`Ask ${showMoney(price)}`} onClick=${ask}>Ask this</button>`}</th>
      <td>${showMoney(left)}</td>
      <td>${hour === null ? '–' : showMoney(hour)}</td>
    </tr>
  `;
}

function Offers({ offers }) {
  if (!offers.length) return null;
  return html`
    <section class="plain">
      <h2>Offers</h2>
      <ul class="lines">${offers.map(
        (offer) => html`<li key=${offer.offer} data-offer=${offer.offer} data-lift=${offer.lift}>
        <span><strong>${offer.name}</strong>
          <small>${showMoney(offer.each, 'money_each')} each, ${showMoney(offer.off, 'money_each')} less than the full price</small>
          <small>${lifted(offer)}</small>
          ${offer.used && html`<small>${used(offer.used)}</small>`}</span>
        ${offer.used && html`<${OfferDays} offer=${offer.offer} />`}</li>`,
      )}</ul>
    </section>
  `;
}

const lifted = ({ lift, must_be_extra: extra }) =>
  lift === null
    ? 'However many more are sold, it never leaves as much as the full price.'
    : `It pays once ${percent(lift)} more are sold: ${percent(extra)} of those sold in it must be sold because of it.`;

function used({ times, given_away: given, must_be_extra: extra }) {
  const so = `Used ${countInWords(times, 'time')}, ${showMoney(given)} given away`;
  return extra.pieces === null ? `${so}.` : `${so}: ${Math.ceil(extra.pieces)} of the pieces must have been sold because of it.`;
}

function Markets({ markets, price }) {
  if (!markets.length) return null;
  return html`
    <section class="plain">
      <h2>What pays for a market</h2>
      <p class="hint">Its fee, the way there, other and card costs, in pieces at ${showMoney(price)}; your hours there are not in it.</p>
      <ul class="lines">${markets.map(
        ({ market, name, pieces, ...costs }) => html`<li key=${market} data-market=${market} data-pieces=${pieces}>
        <span>${name} <small>${costsInWords(costs)}</small></span>
        <strong class="number">${pieces === null ? 'never' : countInWords(pieces, 'piece')}</strong></li>`,
      )}</ul>
    </section>
  `;
}

function costsInWords({ fee, fee_percent: share, travel, other }) {
  const parts = [
    fee && `fee ${showMoney(fee)}`,
    share && `${share} % of takings`,
    travel && `travel ${showMoney(travel)}`,
    other && `other ${showMoney(other)}`,
  ];
  return parts.filter(Boolean).join(', ');
}

function Chosen({ choices, set }) {
  const taxed = records('business')[0]?.tax_percent > 0;
  return html`
    <section class="plain">
      <h2>How it is sold</h2>
      <div class="opening">
        ${
          taxed &&
          html`<${Choice} id="tax" name="tax" label="Tax" value=${choices.tax_included === false ? 'top' : 'inside'} set=${(value) => set('tax_included', value === 'inside')}
          choices=${[['inside', 'inside the price'], ['top', 'on top of it']]} />`
        }
        ${Object.entries(SHARES).map(
          ([
            name,
            { label, usual, choices: shares },
          ]) => html`<${Choice} key=${name} id=${name} name=${name} label=${label} value=${String(choices[name] ?? usual)}
          set=${(value) => set(name, Number(value))} choices=${shares.map((share) => [share, `${share} %`])} />`,
        )}
      </div>
    </section>
  `;
}

const percent = (value) => `${Math.round(value)} %`;
