/* Phones of the business: pairing this one, and how the exchange stands. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { codeInLink, pair } from '../../data/pairing.js';
import { waiting } from '../../data/records.js';
import { onExchange, standing, syncNow } from '../../data/sync.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { OtherPhones } from './other-phones.js';
import { Scan } from './scan.js';

export function Phones() {
  useRecords();
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onExchange(again), []);
  const { paired, stopped, role } = standing();
  return html`
    <section class="plain" id="phones">
      <h2>Phones</h2>
      ${paired && html`<${Standing} />`}
      ${(!paired || stopped) && html`<${Pair} />`}
      ${paired && !stopped && role === 'owner' && html`<${OtherPhones} />`}
    </section>
  `;
}

function Standing() {
  const { name, role, last, trouble, stopped, late, clockOff } = standing();
  return html`
    <dl class="facts" data-standing=${stopped ?? 'paired'}>
      <div><dt>This phone</dt><dd>${name}, ${role}</dd></div>
      <div><dt>Last exchange</dt><dd data-last-exchange=${last ?? ''}>${last ? new Date(last).toLocaleString() : 'not yet'}</dd></div>
    </dl>
    ${stopped && html`<p class="problem" role="alert">${STOPPED[stopped]}</p>`}
    ${trouble && !stopped && html`<p class="problem">${trouble}</p>`}
    ${late && html`<p class="problem" role="alert">Nothing has been exchanged for over a quarter of an hour, though there is a network.</p>`}
    ${clockOff && html`<p class="problem">This phone's clock is more than two minutes off the server's.</p>`}
    ${!stopped && html`<button type="button" onClick=${syncNow}>Exchange now</button>`}
  `;
}

const STOPPED = {
  revoked: 'This phone was taken off the business. What it holds stays here: save a copy, or pair it again.',
  unpaired: 'The server does not know this phone any more. What it holds stays here: pair it again.',
};

function Pair() {
  const [code, setCode] = useState(codeInLink(location.hash));
  const [name, setName] = useState('');
  const [bring, setBring] = useState(true);
  const { count } = waiting();
  const { paired } = standing();
  useEffect(() => {
    // a code is good once: it does not stay in the address
    if (codeInLink(location.hash)) history.replaceState(null, '', location.pathname);
  }, []);
  const submit = (event) => {
    event.preventDefault();
    saying('Paired', () => pair(code.trim(), name.trim(), bring));
  };
  return html`
    <p class="lead">Pair this phone with your business to share records with other phones.
      The code comes from an owner's phone, or from the server's own screen.</p>
    <${Scan} found=${setCode} />
    <form onSubmit=${submit} data-pair>
      <div class="fields">
        <${Text} id="pair-code" label="code" value=${code} set=${setCode} most="14" />
        <${Text} id="pair-name" label="what to call this phone" value=${name} set=${setName} most="60" />
        ${!paired && count > 0 && html`
          <div class="field" data-quantity="choice">
            <label for="pair-bring">what is on this phone</label>
            <span class="control"><select id="pair-bring" onChange=${(event) => setBring(event.target.value === 'bring')}>
              <option value="bring" selected=${bring}>bring these along</option>
              <option value="drop" selected=${!bring}>forget these, use what the server has</option>
            </select></span>
          </div>
        `}
      </div>
      <p><button class="main" type="submit" disabled=${!code.trim() || !name.trim()}>Pair</button></p>
    </form>
  `;
}

function Text({ id, label, value, set, most }) {
  return html`
    <div class="field">
      <label for=${id}>${label}</label>
      <span class="control"><input id=${id} type="text" autocomplete="off" autocapitalize="none" spellcheck="false" maxlength=${most}
        value=${value} onInput=${(event) => set(event.target.value)} /></span>
    </div>
  `;
}
