/* Buy opens on the list being shopped; below it, what to work out next. */
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { records } from '../../data/records.js';
import { useRecords } from '../parts/use-records.js';
import { ListLines } from './shopping-list.js';
import { STEPS } from './steps.js';

export function BuyHome() {
  useRecords();
  const lines = records('list-line');
  const open = lines.filter((line) => !line.bought);
  return html`
    <h1>Buy</h1>
    ${open.length > 0 ? html`
      <section class="plain">
        <h2>To buy</h2>
        <${ListLines} lines=${open} />
        <p><a href="/buy/list">The whole list</a></p>
      </section>
    ` : html`<p class="lead">The list is empty. Size a piece, see what cloth it takes, and put it here.</p>`}
    <section class="plain">
      <h2>Plan</h2>
      <ul class="ways">
        <li><a href="/buy/plan">What I plan to sew <span>What to buy of each cloth for all of it, with its layout</span></a></li>
      </ul>
    </section>
    <section class="plain">
      <h2>Work out</h2>
      <ul class="ways">
        ${Object.keys(STEPS).map((name) => html`<${Way} calculator=${calculatorNamed(name)} />`)}
      </ul>
    </section>
    <section class="plain">
      <h2>Saved</h2>
      <ul class="ways">
        <li><a href="/buy/pieces">Sizes <span>${names(records('piece'))}</span></a></li>
        <li><a href="/buy/cloths">Cloths <span>${names(records('cloth'))}</span></a></li>
        <li><a href="/buy/list">Shopping list <span>${lines.length} ${lines.length === 1 ? 'line' : 'lines'}</span></a></li>
      </ul>
    </section>
  `;
}

function Way({ calculator }) {
  return html`<li><a href=${`/buy/${calculator.name}`}>${calculator.title} <span>${calculator.help}</span></a></li>`;
}

function names(found) {
  return found.length ? found.map((record) => record.name).join(', ') : 'none yet';
}
