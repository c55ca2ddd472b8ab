/* Starting from a saved piece or cloth, and saving what is in the form as one. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { describeNew, edit } from '../../data/actions.js';
import { answer, asTyped, calculatorNamed, defaultsOf, kindNamed, valuesFor } from '../../data/calculating.js';
import { lastTypedWith, typedRows, unitsOf } from '../../data/forms.js';
import { mayAdd, records } from '../../data/records.js';
import { saying, useOnce } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';

/** What is saved already and can be started from. */
export function StartFrom({ form, starts }) {
  useRecords();
  const lists = starts.map((start) => [start, records(start.kind)]).filter(([, found]) => found.length);
  return lists.map(
    ([start, found]) => html`
    <div class="start-from" key=${start.kind} role="group" aria-label=${`Start from a saved ${start.kind}`}>
      ${found.map(
        (record) => html`
        <button type="button" class="chip" aria-pressed=${form.picked[start.kind]?.id === record.id}
          onClick=${() => startFrom(form, start, record)}>${record.name}</button>
      `,
      )}
    </div>
  `,
  );
}

async function startFrom(form, { kind, workedBy, list, again = [] }, record) {
  const { calculator } = form;
  if (list) return form.putRows(list, await typedRows(calculator, list, [record]));
  const given = valuesFor(calculator.inputs, workedBy ? await workedOut(workedBy, record) : record);
  const beside = calculator.inputs.filter(({ name, group }) => again.includes(group) && !(name in given)).map(({ name }) => name);
  const last = lastTypedWith(calculator.name, record.id, beside, form.units);
  const typed = await asTyped(calculator.name, given, unitsOf(calculator, form.typed, form.units));
  // what she did not save of it must not stay from the last one
  const emptied = Object.fromEntries(
    Object.keys(given)
      .filter((name) => given[name] === null)
      .map((name) => [name, '']),
  );
  return form.put({ ...last.typed, ...emptied, ...typed }, { [kind]: { id: record.id, name: record.name } }, last.units);
}

async function workedOut(name, record) {
  return (await answer(name, valuesFor(calculatorNamed(name).inputs, record))).result;
}

/** Save the size or cloth in the form under a name; the same name changes the saved one. */
export function SaveAs({ form, kind, word }) {
  const [name, setName] = useState(form.picked[kind]?.name ?? '');
  const known = records(kind).find((record) => record.name === name.trim());
  const save = useOnce(async () => {
    const { input, result } = await form.newest();
    if (!result) return;
    const fields = { ...valuesFor(kindNamed(kind).fields, { ...defaultsOf(form.calculator), ...input }), name: name.trim() };
    const keep = () => (known ? edit(kind, known.id, fields).then(() => known.id) : describeNew(kind, fields));
    const before = known && Object.fromEntries(Object.keys(fields).map((field) => [field, known[field] ?? null]));
    const undo = known ? () => saying(`${fields.name} is as it was`, () => edit(kind, known.id, before)) : null;
    const id = await saying(`${fields.name} is saved on this phone`, keep, undo);
    if (id) form.put({}, { [kind]: { id, name: fields.name } });
  });
  // what a helper saved the server would refuse
  if (!mayAdd(kind)) return null;
  return html`
    <form class="buy-save-as" onSubmit=${save} data-save=${kind}>
      <label for=${`save-${kind}`}>Save this ${word} as</label>
      <span class="control">
        <input id=${`save-${kind}`} type="text" value=${name} maxlength="60" onInput=${(event) => setName(event.target.value)} />
        <button type="submit" disabled=${!form.answer.result || !name.trim()}>${known ? 'Change' : 'Save'}</button>
      </span>
    </form>
  `;
}
