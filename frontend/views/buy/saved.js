/* Starting from a saved piece or cloth, and saving what is in the form as one. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { describeNew, edit } from '../../data/actions.js';
import { answer, asTyped } from '../../data/calculating.js';
import { lastTypedWith, typedRows, unitsOf } from '../../data/forms.js';
import { records } from '../../data/records.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';

const SIZE = ['loop', 'fullness', 'tube_width', 'end_seam', 'side_seam'];
const CLOTH = ['bolt_width', 'selvedge', 'shrink_length', 'shrink_width', 'squaring', 'mixed', 'repeat',
  'shop_increment', 'minimum_cut', 'price', 'price_length'];

// which saved kinds a form can start from, and what it remembers for each beside the record
const STARTS = {
  'strip-length': { piece: ['stretch_limit', 'stretch_cloth', 'usable_width', 'fullness_min', 'fullness_max', 'ruler_step'] },
  'elastic-cut-length': { piece: ['tail', 'strands', 'elastic_width', 'elastic_thickness', 'pull', 'knot_takeup', 'samples'] },
  'fabric-per-dozen': { piece: ['quantity'], cloth: ['direction', 'fold'] },
  'cloth-compare': { piece: ['quantity'], cloth: [] },
  'remnant-yield': { piece: ['nap'] },
};
const SAVES = { 'strip-length': ['piece', SIZE, 'size'], 'fabric-per-dozen': ['cloth', CLOTH, 'cloth'] };

export function StartFrom({ form }) {
  useRecords();
  const kinds = Object.keys(STARTS[form.calculator.name]);
  const lists = kinds.map((kind) => [kind, records(kind)]).filter(([, found]) => found.length);
  return lists.map(([kind, found]) => html`
    <div class="start-from" key=${kind} role="group" aria-label=${`Start from a saved ${kind}`}>
      ${found.map((record) => html`
        <button type="button" class="chip" aria-pressed=${form.picked[kind]?.id === record.id}
          onClick=${() => startFrom(form, kind, record)}>${record.name}</button>
      `)}
    </div>
  `);
}

async function startFrom(form, kind, record) {
  const { calculator } = form;
  const picked = { [kind]: { id: record.id, name: record.name } };
  if (kind === 'cloth' && calculator.name === 'cloth-compare') {
    return form.putRows('cloths', await typedRows(calculator, 'cloths', [record]));
  }
  const last = lastTypedWith(calculator.name, record.id, STARTS[calculator.name][kind], form.units);
  const given = kind === 'piece' ? await pieceValues(calculator, record) : record;
  const typed = await asTyped(calculator.name, given, unitsOf(calculator, form.typed, form.units));
  // what she did not save of it must not stay from the last one
  const emptied = Object.fromEntries(Object.keys(given).filter((name) => given[name] === null).map((name) => [name, '']));
  return form.put({ ...last.typed, ...emptied, ...typed }, picked, last.units);
}

// a form that starts from a strip gets the piece's strip, worked out by the core
async function pieceValues(calculator, piece) {
  const names = new Set(calculator.inputs.map((field) => field.name));
  const size = Object.fromEntries(SIZE.map((name) => [name, piece[name]]));
  if (!names.has('strip_length')) return { loop: piece.loop, ...(names.has('fullness') ? size : {}) };
  const { strip_length, strip_width } = (await answer('strip-length', size)).result;
  return { strip_length, strip_width };
}

/** Save the size or cloth in the form under a name; the same name changes the saved one. */
export function SaveAs({ form }) {
  const [kind, names, word] = SAVES[form.calculator.name] ?? [];
  const [name, setName] = useState(form.picked[kind]?.name ?? '');
  if (!kind) return null;
  const known = records(kind).find((record) => record.name === name.trim());
  const save = async (event) => {
    event.preventDefault();
    const { input, result } = await form.newest();
    if (!result) return;
    const fields = { name: name.trim(), ...valuesOf(form.calculator, input, names) };
    const id = await saying(
      `${fields.name} is kept on this phone`,
      async () => (known ? (await edit(kind, known.id, fields), known.id) : describeNew(kind, fields)),
    );
    if (id) form.put({}, { [kind]: { id, name: fields.name } });
  };
  return html`
    <form class="save-as" onSubmit=${save} data-save=${kind}>
      <label for=${`save-${kind}`}>Save this ${word} as</label>
      <span class="control">
        <input id=${`save-${kind}`} type="text" value=${name} maxlength="60" onInput=${(event) => setName(event.target.value)} />
        <button type="submit" disabled=${!form.answer.result || !name.trim()}>${known ? 'Change' : 'Save'}</button>
      </span>
    </form>
  `;
}

function valuesOf(calculator, input, names) {
  const fields = Object.fromEntries(calculator.inputs.map((field) => [field.name, field.default]));
  return Object.fromEntries(names.map((name) => [name, input[name] ?? fields[name]]));
}
