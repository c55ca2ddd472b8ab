/* Changing a batch that is being sewn: its strips, its way, threads, people. Its laps stay; what becomes of them is said before. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { changeBatch, changeOf, changeTold, dropChange, keepChange } from '../../data/batch-change.js';
import { sewnInWords } from '../../data/batches.js';
import { batchInWords, countInWords } from '../../data/naming.js';
import { records } from '../../data/records.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { say, saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { HowSewn, Strips, Typed } from './batch-fields.js';

export function ChangeBatch({ id }) {
  const [change, setChange] = useState(() => changeOf(id));
  const told = useFollowed(() => changeTold(id, change), [id, JSON.stringify(change)]);
  if (!told) return html`<h1>Change a batch</h1>`;
  const { batch } = told;
  if (!batch) return html`<${NoSuchScreen} />`;
  const put = (more) => {
    const next = { ...change, ...more };
    keepChange(id, next);
    setChange(next);
  };
  return html`
    <h1>${batchInWords(batch)}, a change</h1>
    ${told.draft ? html`<${Change} told=${told} draft=${{ ...told.draft, ...change }} put=${put} forget=${() => setChange({})} />` : html`<p class="lead">It is no longer open, and stays as it is. <a href=${`/make/batches/${id}`}>See it</a></p>`}
  `;
}

function Change({ told: { batch, free, fields, laps }, draft, put, forget }) {
  const { route } = useLocation();
  const back = `/make/batches/${batch.id}`;
  const save = useOnce(async () => {
    const way = await saying('', () => changeBatch(batch.id));
    if (!way) return;
    say(`${batchInWords(batch)} is changed: its laps stay`, { undo: way });
    route(back, true);
  });
  const leave = useOnce(async () => {
    await dropChange(batch.id);
    forget();
    route(back, true);
  });
  const nothing = !Object.keys(fields).length;
  const words = nothing ? 'Nothing is changed yet' : laps.enough ? 'Save the change' : `At least ${laps.least} pieces`;
  return html`
    <p class="lead">Now: ${sewnInWords(batch)}</p>
    <${Strips} free=${free} draft=${draft} change=${put} />
    ${records('piece').length > 0 && html`<${Typed} draft=${draft} change=${put} />`}
    <${HowSewn} draft=${draft} change=${put} />
    <${LapsThen} laps=${laps} />
    <div class="dock next-steps">
      <button type="button" data-leave onClick=${leave}>Discard</button>
      <button type="button" class="main" data-save=${laps.pieces} disabled=${nothing || !laps.enough} onClick=${save}>${words}</button>
    </div>
  `;
}

// the laps of a batch once it is changed
function LapsThen({ laps: { pieces, least, enough, steps, beside } }) {
  return html`
    <section class="plain" data-pieces=${pieces}>
      <h2>Then</h2>
      ${
        enough
          ? html`<p>${countInWords(pieces, 'piece')} in the batch.</p>`
          : html`<p class="problem" role="alert">${pieces} are too few: ${least === 1 ? 'a batch has one piece at least' : `${least} are begun. Undo their laps first, if they are of another batch`}.</p>`
      }
      ${steps.length > 0 && html`<ul class="lines">${steps.map(({ name, per, done, of }) => html`<li key=${name} data-stays=${done}><span>${name}</span> <span class="number">${per === 'piece' ? `${done} of ${of} done` : 'done'}</span></li>`)}</ul>`}
      ${
        beside.length > 0 &&
        html`<p>This way has no such step; what was timed stays in the cost of the batch, and counts again with a way that has it:</p>
        <ul class="lines">${beside.map(({ name, done }) => html`<li key=${name} data-beside=${done}><span>${name}</span> <span class="number">${done} done</span></li>`)}</ul>`
      }
    </section>
  `;
}
