/* Buy opens on the list being shopped; below it, what to work out next. */
import { countInWords } from '../../data/naming.js';
import { useRef } from 'preact/hooks';
import { html } from 'htm/preact';
import { declared } from '../../data/calculating.js';
import { records } from '../../data/records.js';
import { useRecords } from '../parts/use-records.js';
import { SCREENS } from '../screens.js';
import { ListLines } from './shopping-list.js';

export function BuyHome() {
  useRecords();
  const lines = records('list-line');
  // what is ticked here stays to be corrected until she leaves
  const seen = useRef(new Set());
  const open = lines.filter((line) => !line.bought || seen.current.has(line.id));
  open.forEach(({ id }) => seen.current.add(id));
  return html`
    <h1>Buy</h1>
    ${
      open.length > 0
        ? html`
      <section class="plain">
        <h2>To buy</h2>
        <${ListLines} lines=${open} />
        <p><a href="/buy/list">The whole list</a></p>
      </section>
    `
        : html`<p class="lead">The list is empty. Size a piece, see what cloth it takes, and put it here.</p>`
    }
    <section class="plain">
      <h2>Plan</h2>
      <ul class="ways">
        <li><a href="/buy/plan">What I plan to sew <span>What to buy of each cloth for all of it, with its layout</span></a></li>
      </ul>
    </section>
    <section class="plain">
      <h2>Work out</h2>
      <ul class="ways">
        ${declared()
          .calculators.filter(hasScreen)
          .map((calculator) => html`<${Way} calculator=${calculator} />`)}
      </ul>
    </section>
    <section class="plain">
      <h2>Saved</h2>
      <ul class="ways">
        <li><a href="/buy/pieces">Sizes <span>${names(records('piece'))}</span></a></li>
        <li><a href="/buy/cloths">Cloths <span>${names(records('cloth'))}</span></a></li>
        <li><a href="/buy/list">Shopping list <span>${countInWords(lines.length, 'line')}</span></a></li>
      </ul>
    </section>
  `;
}

const addressOf = ({ name }) => `/buy/${name}`;
const hasScreen = (calculator) => SCREENS.some(({ path }) => path === addressOf(calculator));

function Way({ calculator }) {
  return html`<li><a href=${addressOf(calculator)}>${calculator.title} <span>${calculator.help}</span></a></li>`;
}

function names(found) {
  return found.length ? found.map((record) => record.name).join(', ') : 'none yet';
}
