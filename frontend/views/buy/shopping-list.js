/* The shopping list: tick what is in the bag, add what no calculator knows, print. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { bringBack, edit, putAway } from '../../data/actions.js';
import { lengthsInWords } from '../../data/calculating.js';
import { layoutOf } from '../../data/buying.js';
import { records } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { putOnList } from './list-lines.js';

export function ShoppingList() {
  useRecords();
  const lines = records('list-line');
  return html`
    <h1>Shopping list</h1>
    ${lines.length === 0 && html`<p class="lead">Nothing on it yet.</p>`}
    <${ListLines} lines=${lines} withState />
    <${Total} lines=${lines} />
    <${AddLine} />
    ${lines.length > 0 && html`<p class="no-print"><button type="button" onClick=${() => print()}>Print</button></p>`}
  `;
}

export function ListLines({ lines, withState = false }) {
  const measured = lines.filter((line) => line.length_to_buy !== null);
  const lengths = measured.map((line) => line.length_to_buy);
  const words = useWords(() => lengthsInWords(lengths, 'cm'), [lengths.join()]);
  return html`
    <ul class="lines" data-list-lines>
      ${lines.map((line) => html`<${Line} key=${line.id} line=${line} length=${words[measured.indexOf(line)]} withState=${withState} />`)}
    </ul>
  `;
}

function Line({ line, length, withState }) {
  const id = `line-${line.id}`;
  const tick = (event) => saying(
    event.target.checked ? `${line.name} is in the bag` : `${line.name} is still to buy`,
    () => edit('list-line', line.id, { bought: event.target.checked }),
  );
  const remove = () => saying(`${line.name} is off the list`, () => putAway('list-line', line.id), () => bringBack('list-line', line.id));
  const about = [line.quantity && `${line.quantity} pieces`, line.for_what, line.cost !== null && showMoney(line.cost)].filter(Boolean);
  return html`
    <li data-line=${line.id} data-bought=${line.bought || undefined}>
      <label class="tick" for=${id}>
        <input id=${id} type="checkbox" checked=${line.bought} onChange=${tick} />
        <span><strong>${line.name}</strong>${length && html` <strong class="number">${length}</strong>`}
          ${about.length > 0 && html`<small>${about.join(' · ')}</small>`}
        </span>
      </label>
      ${withState && html`
        <span class="line-ways">
          ${layoutOf(line.id) && html`<a class="no-print" href=${`/buy/list/${line.id}`} aria-label=${`Layout of ${line.name}`}>Layout</a>`}
          <${KeptState} id=${line.id} />
        </span>
      `}
      ${withState && html`<button type="button" class="quiet no-print" aria-label=${`Take ${line.name} off the list`} onClick=${remove}>Off</button>`}
    </li>
  `;
}

function Total({ lines }) {
  const open = lines.filter((line) => !line.bought && line.cost !== null);
  if (!open.length) return null;
  const total = open.reduce((sum, line) => sum + line.cost, 0);
  return html`<p class="total">Still to pay <strong class="number">${showMoney(total)}</strong></p>`;
}

function AddLine() {
  const [name, setName] = useState('');
  const add = async (event) => {
    event.preventDefault();
    if (name.trim() && (await putOnList({ name: name.trim() }))) setName('');
  };
  return html`
    <form class="save-as no-print" onSubmit=${add}>
      <label for="add-line">Anything else</label>
      <span class="control">
        <input id="add-line" type="text" maxlength="80" value=${name} onInput=${(event) => setName(event.target.value)} />
        <button type="submit">Add</button>
      </span>
    </form>
  `;
}
