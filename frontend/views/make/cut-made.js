/* One cut that was recorded, and taking it back. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { cutsMade, ifTakenBack, voidCuts } from '../../data/cuts.js';
import { dayInWords, nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { cutOf, stripsInWords } from './cut-words.js';

export function CutMade({ id }) {
  const told = useFollowed(async () => ({ cut: (await cutsMade()).find((one) => one.id === id), moves: await ifTakenBack([id]) }), [id]);
  if (!told) return html`<h1>Cut</h1>`;
  const { cut, moves } = told;
  if (!cut) return html`<h1>Cut</h1><p class="lead">There is no such cut on this phone.</p>`;
  return html`
    <h1>Cut, ${dayInWords(cut.day)}</h1>
    <p class="lead">${cutOf(cut)} <${KeptState} id=${id} /></p>
    <p>${stripsInWords(cut.lines)}</p>
    ${cut.never ? html`<p class="lead" data-taken-back>This cut is void.</p>` : html`<${TakeBack} cut=${cut} moves=${moves} />`}
  `;
}

const named = (id) => nameOf('remnant', recordById('remnant', id)) || 'a remnant not here yet';

function TakeBack({ cut, moves: { come_back, put_away } }) {
  const [reason, setReason] = useState('');
  const [stays, setStays] = useState([]);
  const stay = (id, on) => setStays(on ? [...stays, id] : stays.filter((other) => other !== id));
  const never = useOnce(() => saying('The cut is void', () => voidCuts([cut.id], { reason: reason.trim(), stays })));
  return html`
    <section class="plain">
      <h2>Void this cut</h2>
      <p>Its strips no longer wait for a batch.${come_back.map((id) => html` <strong>${named(id)}</strong> is there again.`)}</p>
      ${
        put_away.length > 0 &&
        html`
        <p>The offcuts you tick stay as remnants; the others are archived:</p>
        <ul class="lines">${put_away.map(
          (id) => html`
          <li key=${id}><label class="tick"><input type="checkbox" data-stays=${id} checked=${stays.includes(id)} onChange=${({ target }) => stay(id, target.checked)} />
            <span>Keep ${named(id)}</span></label></li>`,
        )}</ul>
      `
      }
      <div class="field">
        <label for="cut-reason">Why</label>
        <span class="control"><input id="cut-reason" name="reason" maxlength="200" value=${reason} onInput=${({ target }) => setReason(target.value)} /></span>
      </div>
      <p><button type="button" data-take-back onClick=${never}>Void the cut</button></p>
    </section>
  `;
}
