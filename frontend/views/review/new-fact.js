/* A fact typed into a form made from its declaration; what is typed is there again after the app was left. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { state } from '../../data/actions.js';
import { today } from '../../data/clock.js';
import { fieldsOf } from '../../data/record-forms.js';
import { saying, useOnce } from '../parts/notice.js';
import { backTo } from '../parts/way-back.js';
import { keyOfForm, RecordForm, useRecordForm } from '../settings/record-form.js';

/** Asks for those fields that `names(typed)` names, in that order, and goes back to where it was asked from, else to `back`, once it is recorded;
    `of` is what its address ends with, `words` {field: {label, help}} what a field is called here. */
export function NewFact({ kind, of, start, names, words = {}, back, said, children }) {
  const { route, query } = useLocation();
  const form = useRecordForm(kind, { day: today(), ...start }, keyOfForm(kind.name, of));
  const leave = () => {
    form.drop();
    route(backTo(query, back));
  };
  const save = useOnce(async (fields) => {
    if (await saying(said, () => state(kind.name, fields))) leave();
  });
  if (!form.typed) return null;
  const known = new Map(fieldsOf(kind).map((field) => [field.name, field]));
  const fields = names(form.typed).map((name) => ({ ...known.get(name), ...words[name] }));
  return html`
    ${children?.(form)}
    <${RecordForm} kind=${kind} form=${form} save=${save} fields=${fields}>
      <button type="button" onClick=${leave}>Discard</button>
    <//>
  `;
}
