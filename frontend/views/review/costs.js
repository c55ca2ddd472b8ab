/* What one piece costs, as a bar and its numbers; every figure opens to where it came from, down to the purchase and the lap. */
import { html } from 'htm/preact';
import { notesInWords } from '../../data/calculating.js';
import { costOf, goodsToCost, productsOf } from '../../data/costs.js';
import { countInWords, dateInWords, nameOf } from '../../data/naming.js';
import { mayKnow, recordById } from '../../data/records.js';
import { exactMoney, showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Refused } from '../parts/refused.js';
import { useAsked, useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { Missing } from '../parts/way-back.js';
import { AddingUp, useGoods } from './goods-looked-at.js';
import { Pay } from './pay.js';

const PARTS = {
  cloth: 'Cloth',
  elastic: 'Elastic',
  thread: 'Thread',
  packaging: 'Packaging',
  other: 'Other supplies',
  labour: 'Time',
  overheads: 'Overheads',
};

export function Costs() {
  useRecords();
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  if (!goodsToCost().length)
    return html`<h1>Costs</h1><${Missing} kind="product" says="Nothing is sold yet. Say what you make, and what one costs is told here." does="Say what you sell" path="/sell/goods" />`;
  return html`<${OfGoods} />`;
}

function OfGoods() {
  const [goods, choice] = useGoods();
  const [told, trouble] = useAsked(async () => goods && { goods, cost: await costOf(productsOf(goods)) }, [goods]);
  return html`
    <h1>Costs</h1>
    ${choice}
    ${trouble ? html`<${Refused} ...${trouble} />` : told?.goods !== goods ? html`<${AddingUp} />` : told.cost ? html`<${Told} goods=${goods} cost=${told.cost} />` : html`<${NotMade} />`}
  `;
}

const NotMade = () => html`
  <p class="lead" data-not-made>No batch of it is finished yet. Once one is, its cloth, thread and time are added up here.</p>
  <p><a class="button main" href="/make">Make</a></p>
`;

function Told({ goods, cost }) {
  return html`
    <div class="review-report review-cost" data-cost-each=${cost.cost_each}>
      <p class="print-only">${goodsToCost().find(([key]) => key === goods)?.[1]}</p>
      <${Total} cost=${cost} />
      <${Bar} shares=${cost.shares} total=${cost.total} />
      <div class="results">
        ${cost.shares.filter(({ part }) => part in PARTS && hasPart(cost, part)).map((share) => html`<${Share} key=${share.part} share=${share} cost=${cost} />`)}
      </div>
      <${Notes} notes=${cost.notes} />
      <${Points} goods=${goods} cost=${cost} />
    </div>
    <p class="next-steps no-print">
      <a class="button main" href="/review/price">Prices side by side</a>
      <button type="button" onClick=${() => print()}>Print</button>
    </p>
    <${Pay} />
  `;
}

// a part without cost is told where something of it was taken
const hasPart = (cost, part) =>
  part === 'labour' || cost.shares.some((share) => share.part === part && share.cost) || cost.parts.some((one) => one.part === part);

function Total({ cost }) {
  const { made, good, pieces, total, batches } = cost;
  return html`
    <details class="why">
      <summary class="said"><strong class="number review-figure">${showMoney(cost.cost_each, 'money_each')}</strong>
        <span class="label">a piece, from ${batches.length === 1 ? 'its last batch' : `its last ${batches.length} batches`}</span><span class="why-word">why</span></summary>
      <div class="why-told">
        <p>${showMoney(total)} for all, shared by ${number(pieces)} pieces = <span class="number">${exactMoney(cost.cost_each)}</span></p>
        <p>${made} made, ${good} good. Usual losses are carried by the good ones, ${cost.normal_loss} % at most.</p>
        ${cost.abnormal_loss > 0 && html`<p>${showMoney(cost.abnormal_loss)} was lost with more spoilt than that.</p>`}
        <ul>${batches.map((row) => html`<li>${batchName(row.batch)}, ${dateInWords(row.day)}: ${row.good} good of ${row.made}</li>`)}</ul>
      </div>
    </details>
  `;
}

// one piece, part beside part; the numbers stand below
function Bar({ shares, total }) {
  let from = 0;
  const rects = shares.map(({ part, cost }) => {
    const width = total ? (100 * cost) / total : 0;
    const rect = width > 0 && html`<rect class="review-part" data-part=${part} x=${from} width=${width} height="10" />`;
    from += width;
    return rect;
  });
  return html`<svg class="review-stack" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">${rects}</svg>`;
}

function Share({ share: { part, each }, cost }) {
  const materials = cost.parts.filter((one) => one.part === part);
  return html`
    <details class="why output" data-part-of-cost=${part} data-each=${each}>
      <summary class="said"><svg class="review-swatch" viewBox="0 0 10 10" aria-hidden="true"><rect class="review-part" data-part=${part} width="10" height="10" /></svg>
        <span class="label">${PARTS[part]}</span><span class="number">${showMoney(each, 'money_each')}</span><span class="why-word">why</span></summary>
      <div class="why-told">
        ${materials.map((one) => html`<${Material} key=${one.record} one=${one} pieces=${cost.pieces} />`)}
        ${part === 'labour' && html`<${Time} time=${cost.time} pieces=${cost.pieces} />`}
        ${part === 'overheads' && html`<p>${showMoney(cost.time.overheads_an_hour)} an hour for ${minutes(cost.time.minutes)}: what they came to, shared by all hours recorded.</p><a class="to-record" href="/review/expenses">Overheads</a>`}
      </div>
    </details>
  `;
}

function Material({ one, pieces }) {
  return html`
    <p><strong>${one.name}</strong>: ${showMoney(one.cost)} for ${number(pieces)} pieces = <span class="number">${exactMoney(one.each)}</span></p>
    <ul>
      ${one.uses.map((use) => html`<li><${Used} ...${use} /></li>`)}
      ${one.bought.map((row) => html`<li><a class="to-record" href=${`/buy/purchases#${row.purchase}`}>Bought ${dateInWords(row.day)}, ${showMoney(row.cost)}</a></li>`)}
      ${!one.bought.length && html`<li><a class="to-record" href="/buy/purchase/new">No purchase of it yet: record one</a></li>`}
    </ul>
  `;
}

function Used({ cut, batch, day, pieces, cost }) {
  const how = `${dateInWords(day)}: ${countInWords(pieces, 'piece')}, ${showMoney(cost)}`;
  return cut ? html`<a class="to-record" href=${`/make/cuts/${cut}`}>Cut ${how}</a>` : `${batchName(batch)}, ${how}`;
}

const batchName = (id) => nameOf('batch', recordById('batch', id)) || 'A batch not here yet';

function Time({ time, pieces }) {
  const batches = [...new Set(time.steps.map(({ batch }) => batch))];
  return html`
    <p>${minutes(time.minutes)} at ${showMoney(time.wage)} an hour = ${showMoney(time.labour)}, for ${number(pieces)} pieces</p>
    ${batches.map(
      (batch) => html`<p><strong>${batchName(batch)}</strong></p>
      <ul>${time.steps.filter((step) => step.batch === batch).map((step) => html`<li>${step.step}: ${minutes(step.minutes)}${lapsOf(step)}</li>`)}</ul>`,
    )}
  `;
}

function lapsOf({ laps, disturbed }) {
  const said = laps.map(({ pieces, took_ms: took, disturbed: not }) => `${pieces} in ${minutes(took / 60000)}${not ? ' (disturbed)' : ''}`);
  return said.length > 0 && html`<small> ${said.join(', ')}${disturbed > 0 && '; a disturbed lap counts at the pace of the others'}</small>`;
}

function Notes({ notes }) {
  const words = useWords(() => notesInWords(notes), [JSON.stringify(notes)]);
  if (!notes.length || !words) return null;
  return html`<ul class="notes">${words.map((text, index) => html`<li data-note=${notes[index].rule}>${text}</li>`)}</ul>`;
}

function Points({ goods, cost }) {
  const now = productsOf(goods).map((id) => recordById('product', id).price);
  return html`
    <section class="plain">
      <h2>What it leaves</h2>
      <table class="review-figures">
        <thead><tr><th scope="col">At a price of</th><th scope="col">left</th><th scope="col">an hour earns</th></tr></thead>
        <tbody>${cost.points.map(
          (point) => html`<tr data-point=${point.price} data-left=${point.left} data-hour=${point.hour_earns}>
          <th scope="row">${showMoney(point.price)}${now.includes(point.price) && html` <small>asked now</small>`}</th>
          <td>${showMoney(point.left)}</td><td>${point.hour_earns === null ? '–' : showMoney(point.hour_earns)}</td></tr>`,
        )}</tbody>
      </table>
    </section>
  `;
}

const number = (value) => value.toLocaleString(undefined, { maximumFractionDigits: 2 });
const minutes = (value) => `${value.toLocaleString(undefined, { maximumFractionDigits: 1 })} min`;
