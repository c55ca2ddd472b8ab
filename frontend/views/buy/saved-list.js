/* Saved pieces or cloths: what each holds, and a way to put it away. */
import { html } from 'htm/preact';
import { bringBack, putAway } from '../../data/actions.js';
import { recordInWords } from '../../data/calculating.js';
import { mayEdit, records } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';

export function SavedList({ kind, title, from, empty }) {
  useRecords();
  const found = records(kind);
  return html`
    <h1>${title}</h1>
    <p><a class="button" href=${from}>${found.length ? 'Work out another' : 'Work out the first'}</a></p>
    ${found.length === 0 && html`<p class="lead">${empty}</p>`}
    <ul class="lines">
      ${found.map((record) => html`<${Saved} key=${record.id} kind=${kind} record=${record} />`)}
    </ul>
  `;
}

function Saved({ kind, record }) {
  const words = useWords(() => recordInWords(kind, record), [JSON.stringify(record)]);
  const away = () =>
    saying(
      `${record.name} is archived`,
      () => putAway(kind, record.id),
      () => bringBack(kind, record.id),
    );
  return html`
    <li>
      <span><strong>${record.name}</strong> <small>${words}</small></span>
      <${KeptState} id=${record.id} />
      ${mayEdit(kind) && html`<button type="button" class="quiet" onClick=${away} aria-label=${`Archive ${record.name}`}>Archive</button>`}
    </li>
  `;
}
