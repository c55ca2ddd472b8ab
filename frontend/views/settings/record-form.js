/* A form of a record, made from its kind's declaration; what is typed is remembered until it is saved. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { convertLength, textOf } from '../../data/forms.js';
import { blankRow, fieldsOf, readRecord, typedRecord, unitsOfKind } from '../../data/record-forms.js';
import { recall, remember } from '../../data/store.js';
import { RecordField } from './record-field.js';

/** Follow a form: {typed, fields, problems, begun, type, drop}; typed is null until it is there.
    `before` are the fields to begin with, `key` under what the draft is remembered. */
export function useRecordForm(kind, before, key) {
  const [form, setForm] = useState({ typed: null, units: unitsOfKind(kind), begun: false });
  const [read, setRead] = useState({ fields: null, problems: {} });
  const latest = useRef(0);
  useEffect(() => {
    const draft = recall(key);
    if (draft) setForm({ ...draft, begun: true });
    else typedRecord(kind, before, form.units).then((typed) => setForm({ ...form, typed }));
  }, [key]);
  useEffect(() => {
    if (!form.typed) return;
    latest.current += 1;
    const mine = latest.current;
    readRecord(kind, form.typed, form.units).then((told) => mine === latest.current && setRead(told));
  }, [form]);
  const put = (next) => {
    setForm({ ...next, begun: true });
    remember(key, { typed: next.typed, units: next.units });
  };
  return {
    ...form,
    ...read,
    calculator: { name: kind.name },
    answer: read,
    typedAt: (path) => path.split('.').reduce((held, name) => held?.[name], form.typed),
    type: (path, value) => put({ ...form, typed: withValue(form.typed, path.split('.'), value) }),
    keep: () => put(form),
    fill: (texts) => put({ ...form, typed: { ...form.typed, ...texts } }),
    blankRow: (list) => blankRow(kind, list, form.units),
    async setUnit(field, path, from, to) {
      const before = form.typed[path];
      const typed = before && !field.keeps_number ? await convertLength(before, field, from, to) : before;
      put({ typed: { ...form.typed, [path]: typed }, units: { ...form.units, [path]: to } });
    },
    drop: () => remember(key, null),
  };
}

/** Where an address says which form was left for a record, and for which of its fields: name the record there. */
export async function fillLeft({ back = '', field }, id) {
  const [, , kind, record] = back.split('?')[0].split('/');
  const key = keyOfForm(kind, record);
  const left = field && recall(key);
  if (left) await remember(key, { ...left, typed: { ...left.typed, [field]: id } });
}

/** What a form's draft is remembered under; `record` is an id, or "new". */
export const keyOfForm = (kind, record) => `record:${kind}:${record}`;

function withValue(held, [name, ...rest], value) {
  const made = rest.length ? withValue(held[name], rest, value) : value;
  return Array.isArray(held) ? held.map((row, index) => (String(index) === name ? made : row)) : { ...held, [name]: made };
}

/** The form; `fields` are those that are asked, where it is not all of them. */
export function RecordForm({ kind, form, save, fields = fieldsOf(kind), children }) {
  const empty = Object.keys(form.problems)
    .filter((path) => !textOf(form.typedAt(path)).length)
    .map((path) => path.split('.')[0]);
  const needed = fields.filter((field) => empty.includes(field.name));
  const submit = (event) => {
    event.preventDefault();
    if (form.fields) save(form.fields);
  };
  return html`
    <form data-record=${kind.name} onSubmit=${submit} novalidate autocomplete="off">
      <div class="fields">
        ${fields.map(
          (field) => html`
          <${RecordField} key=${field.name} field=${field} path=${field.name} value=${form.typed[field.name]} form=${form} />
        `,
        )}
      </div>
      ${needed.length > 0 && html`<p class="hint" data-needed>Still needed: ${needed.map((field) => field.label).join(', ')}</p>`}
      <div class="next-steps">
        <button class="main" type="submit" disabled=${!form.fields}>Save</button>
        ${children}
      </div>
    </form>
  `;
}
