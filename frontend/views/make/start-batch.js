/* Starting a batch: which strips that wait, how they are sewn, with which threads, by how many. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { draftOfBatch, freeStrips, keepDraftOfBatch, linesOf, startBatch, usualSteps } from '../../data/batches.js';
import { nameOf } from '../../data/naming.js';
import { mayAdd, records } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed } from '../parts/use-records.js';
import { Missing, thereAndBack } from '../parts/way-back.js';
import { BatchOrder } from './batch-order.js';
import { FromPlans } from './sewing-plans.js';

const MOST_PEOPLE = 3;

export function StartBatch() {
  const told = useFollowed(async () => ({ free: await freeStrips(), usual: await usualSteps() }), []);
  const [draft, setDraft] = useState(draftOfBatch);
  if (!told) return html`<h1>Start a batch</h1>`;
  if (!records('piece').length)
    return html`<h1>Start a batch</h1><${Missing} kind="piece" says="A batch is sewn in sizes: there is none yet." does="Add a size" />`;
  const change = (more) => {
    const next = { ...draft, ...more };
    keepDraftOfBatch(next);
    setDraft(next);
  };
  return html`<h1>Start a batch</h1><${Draft} free=${told.free} usual=${told.usual} draft=${draft} change=${change} />`;
}

function Draft({ free, usual, draft, change }) {
  const { route } = useLocation();
  const lines = linesOf(draft, free);
  const pieces = lines.reduce((sum, { quantity }) => sum + quantity, 0);
  const known = records('method').length > 0;
  const steps = (draft.steps ?? usual).filter(({ name }) => name.trim());
  const start = useOnce(async () => {
    // her own way, once she has looked at the usual one
    const method =
      !known && mayAdd('method') && steps.length ? { name: 'Usual way', steps: steps.map((step) => ({ ...step, name: step.name.trim() })) } : null;
    const id = await saying(`A batch of ${pieces} is saved on this phone`, () => startBatch(draft, lines, method));
    if (id) route(`/make/batches/${id}`, true);
  });
  const same = new Set(steps.map(({ name }) => name.trim())).size < steps.length;
  return html`
    <${FromPlans} change=${change} />
    <${Strips} free=${free} draft=${draft} change=${change} />
    <${Typed} draft=${draft} change=${change} />
    ${known ? null : html`<${Steps} steps=${draft.steps ?? usual} same=${same} set=${(next) => change({ steps: next })} />`}
    <section class="plain">
      <h2>How it is sewn</h2>
      <div class="fields">
        ${known && html`<${Link} kind="method" name="method" label="Method" none="Usual steps" value=${draft.method} set=${(method) => change({ method })} />`}
        <${Link} kind="thread" name="needle" label="Needle thread" none="Not said" value=${draft.needle} set=${(needle) => change({ needle })} />
        <${Link} kind="thread" name="bobbin" label="Bobbin thread" none=${draft.needle ? 'As the needle' : 'Not said'} value=${draft.bobbin} set=${(bobbin) => change({ bobbin })} />
        <div class="field"><label for="batch-needed">Needed by</label>
          <span class="control"><input id="batch-needed" name="needed" type="date" value=${draft.needed} onInput=${({ target }) => change({ needed: target.value })} /></span></div>
      </div>
      ${!records('thread').length && mayAdd('thread') && html`<p><a href=${thereAndBack('/settings/thread/new')}>Add a thread</a></p>`}
      <p class="total"><span>People</span> <${Stepper} name="people" value=${draft.people} most=${MOST_PEOPLE} set=${(people) => change({ people: Math.max(people, 1) })} /></p>
    </section>
    <${BatchOrder} />
    <div class="dock next-steps">
      <button type="button" class="main" data-start=${pieces} disabled=${!pieces || same} onClick=${start}>${pieces ? `Start a batch of ${pieces}` : 'Tick what is sewn'}</button>
    </div>
  `;
}

function Link({ kind, name, label, none, value, set }) {
  const choices = records(kind).map((record) => [record.id, nameOf(kind, record)]);
  return html`<${Choice} id=${`batch-${name}`} name=${name} label=${label} value=${value} set=${set} choices=${[['', none], ...choices]} />`;
}

const lineInWords = ({ size, cloth }) => nameOf('product', { size, cloth });

function Strips({ free, draft, change }) {
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

// strips that nobody recorded as cut
function Typed({ draft, change }) {
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

function Steps({ steps, same, set }) {
  const name = (index, words) => set(steps.map((step, other) => (other === index ? { ...step, name: words } : step)));
  return html`
    <section class="plain">
      <h2>The steps</h2>
      <p class="lead">Common practice; change them to your way. Each is timed by itself.${!mayAdd('method') && " An owner's phone saves another way."}</p>
      ${
        mayAdd('method')
          ? html`
        <ol class="lines make-steps">${steps.map(
          (step, index) => html`
          <li><div class="field"><label for=${`step-${index}`}>Step ${index + 1}</label>
            <span class="control"><input id=${`step-${index}`} name=${`step-${index}`} maxlength="60" value=${step.name} onInput=${({ target }) => name(index, target.value)} /></span></div>
            <button type="button" aria-label=${`Leave out step ${index + 1}`} onClick=${() => set(steps.filter((_, other) => other !== index))}>Leave out</button></li>`,
        )}</ol>
        ${same && html`<p class="problem" role="alert">Two steps are called alike: give each a name of its own.</p>`}
        <p><button type="button" data-add-step onClick=${() => set([...steps, { name: '', per: 'piece', machine: '', allowance: 15 }])}>Add a step</button></p>`
          : html`<ol>${steps.map((step) => html`<li>${step.name}</li>`)}</ol>`
      }
    </section>
  `;
}
