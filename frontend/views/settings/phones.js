/* Phones of the business: pairing this one, and how the exchange stands. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { momentInWords } from '../../data/naming.js';
import { codeInLink, pair, proposedName } from '../../data/pairing.js';
import { isPageOfIphone } from '../../data/persistence.js';
import { waiting } from '../../data/records.js';
import { onExchange, standing, syncNow } from '../../data/sync.js';
import { saying, useOnce } from '../parts/notice.js';
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
      <div><dt>Last synced</dt><dd data-last-exchange=${last ?? ''}>${last ? momentInWords(last) : 'not yet'}</dd></div>
    </dl>
    ${stopped && html`<p class="problem" role="alert">${STOPPED[stopped]}</p>`}
    ${trouble && !stopped && html`<p class="problem">${trouble}</p>`}
    ${late && html`<p class="problem" role="alert">Nothing was synced for over a quarter of an hour, though there is a network.</p>`}
    ${clockOff && html`<p class="problem">This phone's clock is more than two minutes off the server's.</p>`}
    ${!stopped && html`<button type="button" onClick=${syncNow}>Sync now</button>`}
  `;
}

const STOPPED = {
  revoked: 'This phone was removed. What it holds stays here: save a copy, or pair it again.',
  unpaired: 'The server does not know this phone any more. What it holds stays here: pair it again.',
};

function Pair() {
  const [code, setCode] = useState(codeInLink(location.hash));
  const [name, setName] = useState(proposedName);
  const [bring, setBring] = useState(true);
  const { count } = waiting();
  const { paired } = standing();
  const [asPage, setAsPage] = useState(!isPageOfIphone());
  useEffect(() => {
    if (!codeInLink(location.hash)) return;
    // a code is good once: it does not stay in the address
    history.replaceState(null, '', location.pathname);
    document.getElementById('phones').scrollIntoView();
  }, []);
  // a code is good once: a second tap would tell that it is not
  const submit = useOnce(() => saying('Paired', () => pair(code.trim(), name.trim(), bring)));
  if (!asPage) return html`<${HomeScreenFirst} code=${code} goOn=${() => setAsPage(true)} />`;
  return html`
    <p class="lead">Pair this phone with your business to share records with other phones.
      The code comes from an owner's phone, or from the server's own screen.</p>
    <${Scan} found=${setCode} />
    <form onSubmit=${submit} data-pair>
      <div class="fields">
        <${Text} id="pair-code" label="code" value=${code} set=${setCode} most="14" />
        <${Text} id="pair-name" label="name of this phone" value=${name} set=${setName} most="60" />
        ${
          !paired &&
          count > 0 &&
          html`
          <div class="field" data-quantity="choice">
            <label for="pair-bring">what is on this phone</label>
            <span class="control"><select id="pair-bring" onChange=${(event) => setBring(event.target.value === 'bring')}>
              <option value="bring" selected=${bring}>bring these along</option>
              <option value="drop" selected=${!bring}>forget these, use what the server has</option>
            </select></span>
          </div>
        `
        }
      </div>
      <p><button class="main" type="submit" disabled=${!code.trim() || !name.trim()}>Pair</button></p>
    </form>
  `;
}

// a code spent here would be no use to the app on the home screen, which has a storage of its own
function HomeScreenFirst({ code, goOn }) {
  return html`
    <div class="verdict" data-home-screen-first>
      <p>Add to Home Screen first: tap Share, then Add to Home Screen, and pair there.</p>
      <p>Boltfair on the Home Screen does not see what is saved on this page, and Safari may clear this page after seven days without a visit.</p>
      ${code && html`<p>Open Settings there and type this code: <strong class="number">${code}</strong></p>`}
      <button type="button" onClick=${goOn}>Pair this page all the same</button>
    </div>
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
