/* Settings: what is sold and where, phones, what is kept, money and measures, the version. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { declared } from '../../data/calculating.js';
import { currency, measure, setCurrency, setMeasure } from '../../data/preferences.js';
import { nameOf } from '../../data/naming.js';
import { mayAdd, mayKnow, records } from '../../data/records.js';
import { invented } from '../../data/store/which.js';
import { syncSoon } from '../../data/sync.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { Kept } from './kept.js';
import { Phones } from './phones.js';
import { KINDS } from './record-kinds.js';
import { ToCheck } from './to-check.js';
import { WhatsNew } from './whats-new.js';

const MOST_NAMED = 3;

export function Settings() {
  useRecords();
  useEffect(syncSoon, []);
  return html`
    <h1>Settings</h1>
    <${ToCheck} />
    <${Described} />
    ${!invented && html`<${Phones} /><${Kept} />`}
    <${Measures} />
    <${WhatsNew} />
  `;
}

function Described() {
  return html`
    <section class="plain">
      <h2>What you sell, and where</h2>
      <ul class="ways">
        ${KINDS.filter(({ name }) => mayKnow(name)).map((kind) => html`<${Way} kind=${kind} found=${records(kind.name)} />`)}
      </ul>
    </section>
  `;
}

function Way({ kind, found }) {
  const names = found
    .slice(0, MOST_NAMED)
    .map((record) => nameOf(kind.name, record))
    .join(', ');
  const more = found.length > MOST_NAMED ? ` and ${found.length - MOST_NAMED} more` : '';
  const path = kind.single ? `/${found[0]?.id ?? 'new'}` : found.length || !mayAdd(kind.name) ? '' : '/new';
  return html`<li><a href=${`/settings/${kind.name}${path}`}>${kind.title} <span>${names ? names + more : 'none yet'}</span></a></li>`;
}

function Measures() {
  const [, again] = useState(0);
  const choose = (set) => (event) => {
    const { value } = event.target;
    saying('Saved on this phone', () => set(value));
    again((count) => count + 1);
  };
  return html`
    <section class="plain">
      <h2>Money and measures</h2>
      <div class="fields">
        ${
          !records('business').length &&
          html`<div class="field">
          <label for="currency">currency</label>
          <span class="control"><select id="currency" name="currency" onChange=${choose(setCurrency)}>
            ${Object.keys(declared().currencies)
              .sort()
              .map((code) => html`<option selected=${code === currency()}>${code}</option>`)}
          </select></span>
        </div>`
        }
        <div class="field">
          <label for="measure">new fields start in</label>
          <span class="control"><select id="measure" name="measure" onChange=${choose(setMeasure)}>
            <option value="metric" selected=${measure() === 'metric'}>metric</option>
            <option value="inch" selected=${measure() === 'inch'}>inches and yards</option>
          </select></span>
        </div>
      </div>
      <p class="hint">Each field can still show its own unit.</p>
    </section>
  `;
}
