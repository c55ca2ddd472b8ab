/* Packing: a list to tick; what is packed changes place with one tap, all or none. It prints on one page. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { today } from '../../data/clock.js';
import { countInWords, dayInWords, nameOf } from '../../data/naming.js';
import { isByPlan, keepPacking, moveAll, moveBack, newPacking, packed, packing, planAhead, usualWay } from '../../data/packing.js';
import { recordById, records } from '../../data/records.js';
import { saying, useOnce } from '../parts/notice.js';
import { SmallParts } from '../parts/small-parts.js';
import { Stepper } from '../parts/stepper.js';
import { useRecords } from '../parts/use-records.js';
import { Missing } from '../parts/way-back.js';
import { groupsOf, PlaceChoice, placeInWords, useStockAt } from './things.js';

export function Pack() {
  useRecords();
  const [list, setList] = useState(packing);
  const change = (next) => {
    keepPacking(next);
    setList(next);
  };
  // of two places chosen at once both hold, before the list of the first is there
  const wanted = useRef(null);
  const choose = async (from, to) => {
    const mine = { from, to };
    wanted.current = mine;
    const made = await newPacking(from, to);
    if (wanted.current !== mine) return;
    wanted.current = null;
    change(made);
  };
  const way = () => wanted.current ?? list;
  const [all, setAll] = useState(false);
  const restart = () => {
    setList(packing());
    setAll(!packing());
  };
  useEffect(() => {
    const known = records('place').map(({ id }) => id);
    // one between places that are archived by now is none
    if (known.length > 1 && !(known.includes(list?.from) && known.includes(list.to))) choose(...usualWay());
  }, []);
  if (records('place').length < 2) {
    return html`<h1>Pack</h1><${Missing} kind="place" says=${TWO_PLACES[records('place').length]} does="Add a place" />`;
  }
  if (!list) return html`<h1>Pack</h1>${all && html`<${AllMoved} again=${() => choose(...usualWay())} />`}`;
  return html`
    <h1>Pack</h1>
    <p class="print-only">From ${placeInWords(list.from)} to ${placeInWords(list.to)}, ${dayInWords(today())}</p>
    <div class="fields no-print">
      <${PlaceChoice} id="pack-from" label="From" value=${list.from} set=${(from) => choose(from, way().to)} />
      <${PlaceChoice} id="pack-to" label="To" value=${list.to} set=${(to) => choose(way().from, to)} />
    </div>
    ${
      list.from === list.to
        ? html`<p class="problem" role="alert">That is one place: choose another.</p>`
        : html`<${ByPlan} list=${list} begin=${() => choose(list.from, list.to)} /><${List} key=${`${list.from} ${list.to}`} list=${list} change=${change} restart=${restart} />`
    }
  `;
}

const TWO_PLACES = [
  'What is packed goes from one place to another: there is none yet. Add where your stock is, then a stall.',
  'What is packed goes from one place to another: there is only one yet.',
];

const AllMoved = ({ again }) => html`
  <p class="lead" data-all-moved>All that was on the list has moved.</p>
  <p class="next-steps"><button type="button" onClick=${again}>Begin another list</button> <a class="button" href="/count/stock">Stock by place</a></p>
`;

const bookingInWords = (id) => nameOf('booking', recordById('booking', id));

// a plan that came, or changed, since the list was begun
function ByPlan({ list, begin }) {
  const plan = planAhead(list.to);
  if (!plan || isByPlan(list, plan)) return null;
  return html`<p class="no-print" data-plan=${plan.booking}>There is a plan for ${bookingInWords(plan.booking)}. <button type="button" onClick=${begin}>Pack by the plan</button></p>`;
}

function begunWith({ last, booking }) {
  if (booking) return `It begins with the plan for ${bookingInWords(booking)}, less what is at the stall already. `;
  return last ? `It begins with what was packed on ${dayInWords(last)}. ` : '';
}

function List({ list, change, restart }) {
  const here = useStockAt(list.from);
  const put = (product, quantity) => change({ ...list, pieces: { ...list.pieces, [product]: quantity } });
  const tick = (product, on) => change({ ...list, packed: { ...list.packed, [product]: on } });
  const rows = packed(list);
  const pieces = rows.reduce((sum, [, quantity]) => sum + quantity, 0);
  const planned = Object.entries(list.pieces).filter(([, quantity]) => quantity > 0);
  const move = useOnce(async () => {
    await saying(
      `${countInWords(pieces, 'piece')} moved to ${placeInWords(list.to)}`,
      () => moveAll(list),
      async () => {
        await saying('Moved back, and on the list again', () => moveBack(list));
        restart();
      },
    );
    restart();
  });
  if (!here) return null;
  const groups = groupsOf((key) => here.has(key)).map((group) => ({ ...group, things: group.things.filter((thing) => thing.product) }));
  const first = (thing) => here.get(thing.key) || list.pieces[thing.key] > 0;
  const others = groups.flatMap(({ things }) => things.filter((thing) => !first(thing))).length;
  const shown = (isShown) =>
    groups.map(({ size, name, things }) => html`<${Group} key=${size} name=${name} things=${things.filter(isShown)} list=${list} row=${row} />`);
  const row = (thing) => html`<${Row} key=${thing.key} thing=${thing} list=${list} left=${here.get(thing.product)} put=${put} tick=${tick} />`;
  return html`
    <p class="hint no-print" data-last=${list.last ?? ''} data-planned=${list.booking ?? ''}>${begunWith(list)}Set how many go, and tick what is in the box.</p>
    <div class="count-packing">${shown(first)}</div>
    ${others > 0 && html`<details class="more no-print"><summary>What is not here (${others})</summary>${shown((thing) => !first(thing))}</details>`}
    <p class="total"><span>In all</span> <strong>${countInWords(
      planned.reduce((sum, [, quantity]) => sum + quantity, 0),
      'piece',
    )}</strong></p>
    <${SmallParts} />
    <p class="no-print"><button type="button" onClick=${() => print()}>Print the list</button></p>
    <div class="dock next-steps">
      ${planned.length > rows.length && html`<button type="button" onClick=${() => change({ ...list, packed: Object.fromEntries(planned.map(([product]) => [product, true])) })}>Tick all</button>`}
      <button type="button" class="main" data-move=${pieces} disabled=${!pieces} onClick=${move}>${pieces ? `Move ${countInWords(pieces, 'piece')} to ${placeInWords(list.to)}` : 'Nothing is ticked yet'}</button>
    </div>
  `;
}

function Group({ name, things, list, row }) {
  if (!things.length) return null;
  const planned = things.filter((thing) => list.pieces[thing.key] > 0).length;
  return html`<section class="counts" data-planned=${planned}><h2>${name}</h2><ul class="lines">${things.map(row)}</ul></section>`;
}

function hereInWords(left, quantity) {
  if (left === null) return 'never counted here';
  if (left < 0) return `${-left} more left than were here`;
  return left < quantity ? `only ${left || 'none'} here` : `${left || 'none'} here`;
}

function Row({ thing, list, left, put, tick }) {
  const quantity = list.pieces[thing.product] ?? 0;
  return html`
    <li data-thing=${thing.key} data-pieces=${quantity}>
      <label class="tick"><input type="checkbox" checked=${list.packed[thing.product] ?? false} disabled=${!quantity} onChange=${({ target }) => tick(thing.product, target.checked)} />
        <span>${thing.name}<small>${hereInWords(left, quantity)}</small></span></label>
      <${Stepper} name=${thing.full} value=${quantity} set=${(pieces) => put(thing.product, pieces)} />
      <strong class="number print-only">${quantity}</strong>
    </li>
  `;
}
