/* The shopping list: tick what is in the bag, add what no calculator knows, print. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { bringBack, putAway } from '../../data/actions.js';
import { homeOf, notBought } from '../../data/bringing-home.js';
import { layoutOf } from '../../data/buying.js';
import { materialOfLine } from '../../data/purchases.js';
import { mayAdd, mayEdit, mayKnow, records } from '../../data/records.js';
import { Folded } from '../parts/groups.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useLengths } from '../parts/use-words.js';
import { AtHome, sayBought } from './at-home.js';
import { putOnList } from './list-lines.js';

export function ShoppingList() {
  useRecords();
  const lines = records('list-line');
  // what is ticked here stays where it was tapped
  const [ticked] = useState(() => new Set(lines.filter(({ bought }) => bought).map(({ id }) => id)));
  const isOver = (line) => line.bought && ticked.has(line.id) && !homeOf(line);
  const before = lines.filter(isOver);
  return html`
    <h1>Shopping list</h1>
    ${lines.length === 0 && html`<p class="lead">Nothing on it yet. A plan or a calculator puts its cloth here; or add a line below. <a href="/buy/plan">Plan</a></p>`}
    <${ListLines} lines=${lines.filter((line) => !isOver(line))} withState />
    <${Total} lines=${lines} />
    ${mayAdd('list-line') ? html`<${AddLine} />` : html`<p class="hint no-print" data-read-only>An owner's phone ticks and changes this list.</p>`}
    ${before.length > 0 && html`<${Folded} title="Bought before" rows=${before} list=${(rows) => html`<${ListLines} lines=${rows} withState />`} />`}
    ${lines.length > 0 && html`<p class="next-steps no-print"><button type="button" onClick=${() => print()}>Print</button></p>`}
    ${mayKnow('purchase') && html`<p class="no-print"><a href="/buy/purchases">Purchases</a></p>`}
  `;
}

export function ListLines({ lines, withState = false }) {
  const measured = lines.filter((line) => line.length_to_buy !== null);
  const lengths = measured.map((line) => line.length_to_buy);
  const words = useLengths(lengths, 'm');
  return html`
    <ul class="lines" data-list-lines>
      ${lines.map((line) => html`<${Line} key=${line.id} line=${line} length=${words[measured.indexOf(line)]} withState=${withState} />`)}
    </ul>
  `;
}

function Line({ line, length, withState }) {
  const id = `line-${line.id}`;
  const [asks, setAsks] = useState(false);
  // shown at once, until it is recorded
  const [ticked, setTicked] = useState(null);
  const tick = async ({ target: { checked } }) => {
    setTicked(checked);
    setAsks(checked);
    await (checked ? sayBought(line) : saying(`${line.name} is still to buy`, () => notBought(line)));
    setTicked(null);
  };
  const remove = () =>
    saying(
      `${line.name} is off the list`,
      () => putAway('list-line', line.id),
      () => bringBack('list-line', line.id),
    );
  const about = [line.quantity && `${line.quantity} pieces`, line.for_what, knownCost(line) && showMoney(line.cost)].filter(Boolean);
  return html`
    <li data-line=${line.id} data-bought=${line.bought || undefined}>
      <label class="tick" for=${id}>
        <input id=${id} type="checkbox" checked=${ticked ?? line.bought} disabled=${!mayEdit('list-line')} onChange=${tick} />
        <span><strong>${line.name}</strong>${length && html` <strong class="number">${length}</strong>`}
          ${about.length > 0 && html`<small>${about.join(' · ')}</small>`}
        </span>
      </label>
      ${
        withState &&
        html`
        <span class="buy-line-ways">
          ${layoutOf(line.id) && html`<a class="no-print" href=${`/buy/list/${line.id}`} aria-label=${`Layout of ${line.name}`}>Layout</a>`}
          <${KeptState} id=${line.id} />
        </span>
      `
      }
      ${withState && mayEdit('list-line') && html`<button type="button" class="quiet no-print" aria-label=${`Take ${line.name} off the list`} onClick=${remove}>Off</button>`}
      ${line.bought && materialOfLine(line) && mayEdit('list-line') && html`<${AtHome} line=${line} asks=${asks} />`}
      ${line.bought && !materialOfLine(line) && mayKnow('purchase') && html`<a class="to-record no-print" href=${`/buy/purchase/${line.id}`}>Record what was paid</a>`}
    </li>
  `;
}

function Total({ lines }) {
  const open = lines.filter((line) => !line.bought);
  const known = open.filter(knownCost);
  if (!known.length) return null;
  const total = known.reduce((sum, line) => sum + line.cost, 0);
  const unknown = open.length - known.length;
  return html`
    <p class="total">Still to pay <strong class="number">${showMoney(total)}</strong></p>
    ${unknown > 0 && html`<p class="hint" data-unpriced=${unknown}>${unknown === 1 ? 'One line has' : `${unknown} lines have`} no price: not counted in it.</p>`}
  `;
}

function AddLine() {
  const [name, setName] = useState('');
  const add = useOnce(async () => {
    // what was typed meanwhile stays
    if (name.trim() && (await putOnList({ name: name.trim() }))) setName((now) => (now === name ? '' : now));
  });
  return html`
    <form class="buy-save-as no-print" onSubmit=${add}>
      <label for="add-line">Anything else</label>
      <span class="control">
        <input id="add-line" type="text" maxlength="80" value=${name} onInput=${(event) => setName(event.target.value)} />
        <button type="submit">Add</button>
      </span>
    </form>
  `;
}

// a helper is not shown what it costs
const knownCost = ({ cost }) => cost !== null && cost !== undefined;
