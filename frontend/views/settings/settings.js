/* Settings: money and measures, what is kept and where, the version. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { declared } from '../../data/calculating.js';
import { copyOfAll, storageState } from '../../data/persistence.js';
import { currency, measure, setCurrency, setMeasure } from '../../data/preferences.js';
import { waiting } from '../../data/records.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { Phones } from './phones.js';
import { ToCheck } from './to-check.js';
import { WhatsNew } from './whats-new.js';

export function Settings() {
  useRecords();
  return html`
    <h1>Settings</h1>
    <${Measures} />
    <${ToCheck} />
    <${Phones} />
    <${Kept} />
    <${WhatsNew} />
  `;
}

function Measures() {
  const [, again] = useState(0);
  const choose = (set) => (event) => {
    const { value } = event.target;
    saying('Kept on this phone', () => set(value));
    again((count) => count + 1);
  };
  return html`
    <section class="plain">
      <h2>Money and measures</h2>
      <div class="fields">
        <div class="field">
          <label for="currency">currency</label>
          <span class="control"><select id="currency" name="currency" onChange=${choose(setCurrency)}>
            ${Object.keys(declared().currencies).sort().map((code) => html`<option selected=${code === currency()}>${code}</option>`)}
          </select></span>
        </div>
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

function Kept() {
  const { count, since } = waiting();
  const storage = useWords(storageState, [count]);
  return html`
    <section class="plain" id="kept">
      <h2>What is kept</h2>
      <dl class="facts">
        <div><dt>On this phone, not sent</dt><dd data-waiting=${count}>
          ${count === 0 ? 'nothing' : `${count} ${count === 1 ? 'change' : 'changes'}, since ${new Date(since).toLocaleString()}`}</dd></div>
        <div><dt>Storage that stays</dt><dd>${storage.words}</dd></div>
        ${storage.roomMb && html`<div><dt>Room left</dt><dd>${storage.roomMb} MB</dd></div>`}
      </dl>
      <p class="hint">Boltfair keeps everything on this phone. Save a copy now and then, and put it somewhere else.</p>
      <button type="button" onClick=${saveCopy}>Save a copy</button>
    </section>
  `;
}

async function saveCopy() {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([await copyOfAll()], { type: 'application/json' }));
  link.download = `boltfair-copy-${new Date().toISOString().slice(0, 10)}.json`;
  link.click();
  URL.revokeObjectURL(link.href);
}
