/* A change that the server would not take, as a form: what is saved takes its place. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { correct } from '../../data/actions.js';
import { kindNamed } from '../../data/calculating.js';
import { recordById, toCheck } from '../../data/records.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { RecordForm, useRecordForm } from './record-form.js';
import { reasonsOf, titleOf } from './to-check.js';

export function Correct({ id }) {
  useRecords();
  const change = toCheck().find((found) => found.id === id);
  if (!change) return html`<${NoSuchScreen} />`;
  return html`<${Editor} key=${id} change=${change} kind=${kindNamed(change.kind)} />`;
}

function Editor({ change, kind }) {
  const { route } = useLocation();
  const form = useRecordForm(kind, { ...recordById(kind.name, change.record), ...change.fields }, `record:check:${change.id}`);
  const save = async (fields) => {
    const done = await saying('Saved on this phone, to be sent again', () => correct(change, fields).then(() => true));
    if (!done) return;
    form.drop();
    route('/settings');
  };
  return html`
    <h1>${titleOf(change)}</h1>
    <p class="problem">${reasonsOf(change)}</p>
    ${form.typed && html`<${RecordForm} kind=${kind} form=${form} save=${save} />`}
  `;
}
