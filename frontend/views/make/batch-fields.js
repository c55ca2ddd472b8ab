/* What is said of a batch: which strips it takes, how they are sewn, with which threads, by how many. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { fieldOf } from '../../data/asking.js';
import { nameOf } from '../../data/naming.js';
import { mayAdd, recordById, records } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { Stepper } from '../parts/stepper.js';
import { thereAndBack } from '../parts/way-back.js';

/** How it is sewn: its method, where there is one, threads, the day, people. */
export function HowSewn({ draft, change }) {
  return html`
    <section class="plain">
      <h2>How it is sewn</h2>
      <div class="fields">
        ${records('method').length > 0 && html`<${Link} kind="method" name="method" label="Method" none="Usual steps" value=${draft.method} set=${(method) => change({ method })} />`}
        <${Link} kind="thread" name="needle" label="Needle thread" none="Not said" value=${draft.needle} set=${(needle) => change({ needle })} />
        <${Link} kind="thread" name="bobbin" label="Bobbin thread" none=${draft.needle ? 'As the needle' : 'Not said'} value=${draft.bobbin} set=${(bobbin) => change({ bobbin })} />
        <div class="field"><label for="batch-needed">Needed by</label>
          <span class="control"><input id="batch-needed" name="needed" type="date" value=${draft.needed} onInput=${({ target }) => change({ needed: target.value })} /></span></div>
      </div>
      ${!records('thread').length && mayAdd('thread') && html`<p><a href=${thereAndBack('/settings/thread/new')}>Add a thread</a></p>`}
      <p class="total"><span>People</span> <${Stepper} name="people" value=${draft.people} most=${fieldOf('batch', 'people').highest} set=${(people) => change({ people: Math.max(people, 1) })} /></p>
    </section>
  `;
}

function Link({ kind, name, label, none, value, set }) {
  const known = records(kind);
  // what was archived since may still be in use
  const used = value && !known.some(({ id }) => id === value) ? recordById(kind, value) : null;
  const choices = (used ? [...known, used] : known).map((record) => [record.id, nameOf(kind, record)]);
  return html`<${Choice} id=${`batch-${name}`} name=${name} label=${label} value=${value} set=${set} choices=${[['', none], ...choices]} />`;
}

const lineInWords = ({ size, cloth }) => nameOf('product', { size, cloth });

/** Strips that wait, to be ticked. */
export function Strips({ free, draft, change }) {
  const put = (key, quantity) => change({ lines: { ...draft.lines, [key]: quantity } });
  return html`
    <section class="plain">
      <h2>Strips that wait</h2>
      ${free.length === 0 && html`<p class="lead">No strips wait that are in no batch. <a href="/make/cutting">Cut some</a>, or say below what is sewn.</p>`}
      <ul class="lines">${free.map((row) => {
        const pieces = Math.min(draft.lines[row.key] ?? 0, row.quantity);
        return html`
        <li key=${row.key} data-free=${row.quantity}>
          <label class="tick"><input type="checkbox" checked=${pieces > 0} onChange=${({ target }) => put(row.key, target.checked ? row.quantity : 0)} />
            <span>${lineInWords(row)}<small>${row.quantity} wait${row.claimed > 0 ? `, ${row.claimed} more are in a batch` : ''}</small></span></label>
          <${Stepper} name=${lineInWords(row)} value=${pieces} most=${row.quantity} set=${(quantity) => put(row.key, quantity)} />
        </li>`;
      })}</ul>
    </section>
  `;
}

/** Strips that nobody recorded as cut. */
export function Typed({ draft, change }) {
  const [size, setSize] = useState(() => records('piece')[0].id);
  const [cloth, setCloth] = useState('');
  const set = (index, quantity) =>
    change({ typed: draft.typed.map((line, other) => (other === index ? { ...line, quantity } : line)).filter((line) => line.quantity > 0) });
  const add = () => change({ typed: [...draft.typed, { size, cloth: cloth || records('cloth')[0].id, quantity: 12 }] });
  return html`
    <ul class="lines">${draft.typed.map(
      (line, index) => html`
      <li data-typed=${line.quantity}><span>${lineInWords(line)}<small>not among the strips that wait</small></span>
        <${Stepper} name=${lineInWords(line)} value=${line.quantity} set=${(quantity) => set(index, quantity)} /></li>`,
    )}</ul>
    ${
      records('cloth').length > 0 &&
      html`
    <details class="more"><summary>Sew other strips</summary>
      <div class="fields">
        <${Choice} id="other-size" name="size" label="Size" value=${size} set=${setSize} choices=${records('piece').map(({ id, name }) => [id, name])} />
        <${Choice} id="other-cloth" name="cloth" label="Cloth" value=${cloth || records('cloth')[0].id} set=${setCloth} choices=${records('cloth').map(({ id, name }) => [id, name])} />
      </div>
      <p><button type="button" data-add-line onClick=${add}>Add a dozen</button></p>
    </details>`
    }
  `;
}
