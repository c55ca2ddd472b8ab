/* A form of a record, made from its kind's declaration; what is typed is remembered until it is saved. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { kindNamed } from '../../data/calculating.js';
import { rewritten, textOf } from '../../data/forms.js';
import { blankRow, fieldsOf, readRecord, typedRecord, unitsOfKind } from '../../data/record-forms.js';
import { recall, remember } from '../../data/store/remembered.js';
import { useOnce } from '../parts/notice.js';
import { RecordField } from './record-field.js';

/** Follow a form: {typed, fields, problems, begun, before, type, newest, drop}; typed is null until it is there.
    `before` are the fields to begin with, `key` under what the draft is remembered. A draft holds what was typed: the rest
    is as it is now. */
export function useRecordForm(kind, before, key) {
  const [form, setForm] = useState({ typed: null, units: unitsOfKind(kind), begun: false });
  const [read, setRead] = useState(NOTHING_READ);
  // what is typed now, and its reading: the screen may not show them yet
  const latest = useRef(form);
  const reading = useRef(Promise.resolve(NOTHING_READ));
  const show = (next) => {
    latest.current = next;
    setForm(next);
    const mine = readRecord(kind, next.typed, next.units);
    reading.current = mine;
    mine.then((told) => mine === reading.current && setRead(told));
  };
  const put = (next) => {
    show({ ...next, begun: true });
    remember(key, { typed: next.typed, units: next.units, before: next.before, given: next.given });
  };
  const fill = (texts) => put({ ...latest.current, typed: { ...latest.current.typed, ...texts } });
  // what a form begins with beside that, as its size or its market says: it is not typed, and no draft by itself
  const beginWith = (texts) => {
    const { typed, given } = latest.current;
    show({ ...latest.current, typed: { ...typed, ...texts }, given: { ...given, ...texts } });
  };
  const typedAt = (path) => path.split('.').reduce((held, name) => held?.[name], latest.current.typed);
  useEffect(() => {
    const draft = recall(key);
    opened(kind, before, draft ?? form).then((typed) => show({ ...form, ...draft, typed, before, begun: Boolean(draft) }));
  }, [key]);
  return {
    ...form,
    ...read,
    calculator: { name: kind.name },
    answer: read,
    typedAt,
    fill,
    beginWith,
    // the fields of what is typed now; null while one is bad
    newest: async () => (await reading.current).fields,
    type: (path, value) => put({ ...latest.current, typed: withValue(latest.current.typed, path.split('.'), value) }),
    keep: () => put(latest.current),
    blankRow: (list) => blankRow(kind, list, form.units),
    async setUnit(field, path, from, to) {
      const typed = await rewritten(typedAt, path, field, latest.current.units[path] ?? from, to);
      const { units, typed: others } = latest.current;
      put({ ...latest.current, typed: withValue(others, path.split('.'), typed), units: { ...units, [path]: to } });
    },
    drop: () => remember(key, null),
  };
}

// of a draft what was typed; what was not is as the record, or the link that led here, says by now
async function opened(kind, before, { typed, units, before: then, given }) {
  const now = await typedRecord(kind, before, units);
  if (!typed) return now;
  const was = { ...(then && (await typedRecord(kind, then, units))), ...given };
  const isTyped = ([name, value]) => JSON.stringify(value) !== JSON.stringify(was[name]);
  return { ...now, ...Object.fromEntries(Object.entries(typed).filter(isTyped)) };
}

const NOTHING_READ = { fields: null, problems: {} };

/** Where an address says which form was left for a record, and for which of its fields: name the record there. */
export async function fillLeft({ back = '', field }, id) {
  if (!field) return;
  const [path, asked] = back.split('?');
  const [, , kind, record] = path.split('/');
  const start = record === 'new' ? startOf(kindNamed(kind), Object.fromEntries(new URLSearchParams(asked))) : {};
  const key = keyOfForm(kind, record, start);
  const left = recall(key);
  if (left) await remember(key, { ...left, typed: { ...left.typed, [field]: id } });
}

/** What a form's draft is remembered under; `record` is an id, or "new" with what a link says it begins with. */
export function keyOfForm(kind, record, start = {}) {
  const begun = Object.keys(start).length ? ` ${JSON.stringify(start)}` : '';
  return `record:${kind}:${record}${begun}`;
}

/** What a new record begins with, as the address says: {field: value}. */
export function startOf(kind, query) {
  const start = {};
  for (const field of fieldsOf(kind)) {
    if (query[field.name]) start[field.name] = field.item ? [query[field.name]] : query[field.name];
  }
  return start;
}

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
  const submit = useOnce(async () => {
    const newest = await form.newest();
    if (newest) await save(newest);
  });
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
