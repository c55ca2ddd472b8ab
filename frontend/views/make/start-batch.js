/* Starting a batch: which strips that wait, how they are sewn, with which threads, by how many. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { draftOfBatch, freeStrips, keepDraftOfBatch, linesOf, orderOfBatches, startBatch, usualSteps } from '../../data/batches.js';
import { mayAdd, records } from '../../data/records.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { Missing } from '../parts/way-back.js';
import { HowSewn, Strips, Typed } from './batch-fields.js';
import { BatchOrder } from './batch-order.js';
import { FromPlans } from './sewing-plans.js';

export function StartBatch() {
  const told = useFollowed(async () => ({ free: await freeStrips(), usual: await usualSteps(), order: await orderOfBatches() }), []);
  const [draft, setDraft] = useState(draftOfBatch);
  if (!told) return html`<h1>Start a batch</h1>`;
  if (!records('piece').length)
    return html`<h1>Start a batch</h1><${Missing} kind="piece" says="A batch is sewn in sizes: there is none yet." does="Add a size" />`;
  const change = (more) => {
    const next = { ...draft, ...more };
    keepDraftOfBatch(next);
    setDraft(next);
  };
  return html`<h1>Start a batch</h1><${Draft} ...${told} draft=${draft} change=${change} />`;
}

function Draft({ free, usual, order, draft, change }) {
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
    <${HowSewn} draft=${draft} change=${change} />
    <${BatchOrder} told=${order} />
    <div class="dock next-steps">
      <button type="button" class="main" data-start=${pieces} disabled=${!pieces || same} onClick=${start}>${pieces ? `Start a batch of ${pieces}` : 'Tick what is sewn'}</button>
    </div>
  `;
}

function Steps({ steps, same, set }) {
  const name = (index, words) => set(steps.map((step, other) => (other === index ? { ...step, name: words } : step)));
  return html`
    <section class="plain">
      <h2>The steps</h2>
      <p class="lead">${mayAdd('method') ? 'Common practice; change them to your way. Each is timed by itself.' : 'Common practice; each is timed by itself. Where you sew another way, an owner saves it on their phone: Settings, Methods. Then it is chosen here.'}</p>
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
