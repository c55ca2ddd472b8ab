/* Records on this phone and where: what waits and since when, storage, copies. */
import { useEffect, useReducer, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { copyOfAll, takeIn } from '../../data/copies.js';
import { today } from '../../data/clock.js';
import { countInWords, momentInWords } from '../../data/naming.js';
import { forgetAll } from '../../data/pairing.js';
import { storageState } from '../../data/persistence.js';
import { toCheck, waiting, waitingChanges } from '../../data/records.js';
import { standing } from '../../data/sync.js';
import { offlineState, onUpdate } from '../../data/updates.js';
import { say, saying } from '../parts/notice.js';
import { saveFile } from '../parts/save-file.js';
import { useWords } from '../parts/use-words.js';
import { titleOf } from './to-check.js';

const MOST_LISTED = 20;
const WITHOUT_SIGNAL = {
  ready: 'yes',
  'not yet': 'not yet: still being saved',
  'not trusted': 'no: this phone does not trust the computer that runs Boltfair. How it learns to is told where that was started',
  never: "no: this browser cannot. Open Boltfair in the phone's own browser",
};

export function Kept() {
  const { count, since } = waiting();
  const file = useRef();
  const rejected = toCheck().length;
  const storage = useWords(storageState, [count]);
  const [, again] = useReducer((times) => times + 1, 0);
  useEffect(() => onUpdate(again), []);
  return html`
    <section class="plain" id="kept">
      <h2>Records on this phone</h2>
      <dl class="facts">
        <div><dt>On this phone, not sent</dt><dd data-waiting=${count}>
          ${count === 0 ? 'nothing' : `${countInWords(count, 'change')}, since ${momentInWords(since)}`}</dd></div>
        ${rejected > 0 && html`<div><dt>To check</dt><dd><a href="#check">${rejected}</a></dd></div>`}
        <div><dt>Opens without a signal</dt><dd data-without-signal=${offlineState()}>${WITHOUT_SIGNAL[offlineState()]}</dd></div>
        <div><dt>Safe from clearing</dt><dd>${storage.words}</dd></div>
        ${storage.room && html`<div><dt>Room left</dt><dd>${storage.room}</dd></div>`}
      </dl>
      ${count > 0 && html`<${Waiting} count=${count} />`}
      <p class="hint">Everything is saved on this phone. Save a copy now and then, and put it somewhere else.</p>
      <div class="next-steps">
        <button type="button" onClick=${() => saying('A copy is saved', saveCopy)}>Save a copy</button>
        <button type="button" onClick=${() => file.current.click()}>Load a copy</button>
        <input ref=${file} type="file" accept="application/json,.json" hidden data-copy onChange=${takeCopy} />
      </div>
      <${Emptying} />
    </section>
  `;
}

function Waiting({ count }) {
  const changes = waitingChanges().slice(-MOST_LISTED).reverse();
  return html`
    <details class="settings-waits">
      <summary>Waiting to send</summary>
      <ul>
        ${changes.map((change) => html`<li key=${change.id}>${titleOf(change)}</li>`)}
        ${count > changes.length && html`<li>and ${count - changes.length} before these</li>`}
      </ul>
    </details>
  `;
}

async function saveCopy() {
  await saveFile(`boltfair-copy-${today()}.json`, await copyOfAll(), 'application/json');
}

async function takeCopy({ target }) {
  try {
    const { taken, known, bad } = await takeIn(await target.files[0].text());
    say(`${taken} loaded, ${known} were here${bad ? `, ${bad} could not be read` : ''}`);
  } catch (error) {
    say(error.message, { bad: true });
  }
  target.value = '';
}

// only once this phone is let in no more, and only with a copy saved first
function Emptying() {
  const [saved, setSaved] = useState(false);
  if (!standing().stopped) return null;
  return html`
    <h3>Another business on this phone</h3>
    <p class="hint">Save a copy first; then this phone can be emptied.</p>
    ${!saved && html`<button type="button" onClick=${() => saveCopy().then(() => setSaved(true))}>Save a copy to empty this phone</button>`}
    ${saved && html`<button type="button" onClick=${() => saying('This phone is empty', forgetAll)}>Empty this phone</button>`}
  `;
}
