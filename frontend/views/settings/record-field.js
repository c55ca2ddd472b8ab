/* One field of a record's form: what a calculator's form has, and links, days, lists besides. */
import { html } from 'htm/preact';
import { kindNamed, recurrences } from '../../data/calculating.js';
import { nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { Field } from '../parts/field.js';
import { useWords } from '../parts/use-words.js';

const NATIVE = { date: 'date', time: 'time' };

export function RecordField({ field, path, value, form }) {
  if (field.item) return html`<${Items} field=${field} path=${path} value=${value} form=${form} />`;
  if (field.quantity === 'list') return html`<${Rows} field=${field} path=${path} value=${value} form=${form} />`;
  // what leads to another fact is not chosen from a list
  if (field.quantity === 'id') return kindNamed(field.links)?.fact === false && html`<${Link} field=${field} path=${path} value=${value} form=${form} />`;
  if (field.shape === 'recurrence') return html`<${Recurrence} field=${field} path=${path} value=${value} form=${form} />`;
  if (field.shape in NATIVE || field.name === 'group') return html`<${Special} field=${field} path=${path} value=${value} form=${form} />`;
  return html`<${Field} field=${field} path=${path} value=${value} form=${form} />`;
}

// a label, a control and what is wrong with it, as `Field` has them
function Labelled({ field, path, form, wide, children }) {
  const id = idOf(form, path);
  const problem = form.typedAt(path) && form.answer.problems[path];
  return html`
    <div class="field" data-quantity=${wide ? 'choice' : (NATIVE[field.shape] ?? field.quantity)}>
      <label for=${id}>${field.label}</label>
      ${children}
      <p class="help" id=${`${id}-help`}>${field.help}</p>
      ${problem && html`<p class="problem" id=${`${id}-problem`}>${problem}</p>`}
    </div>
  `;
}

const idOf = (form, path) => `${form.calculator.name}-${path}`;

function controlOf(form, path) {
  const id = idOf(form, path);
  const bad = form.typedAt(path) && form.answer.problems[path];
  return { id, name: path, 'aria-describedby': bad ? `${id}-problem ${id}-help` : `${id}-help`, 'aria-invalid': bad ? 'true' : undefined };
}

function Special({ field, path, value, form }) {
  const list = field.name === 'group' ? 'groups' : undefined;
  return html`
    <${Labelled} field=${field} path=${path} form=${form}>
      <span class="control"><input ...${controlOf(form, path)} type=${NATIVE[field.shape] ?? 'text'} list=${list} value=${value ?? ''}
        onInput=${(event) => form.type(path, event.target.value)} /></span>
      ${list && html`<${Groups} />`}
    <//>
  `;
}

function Groups() {
  const groups = new Set(records('product').map((product) => product.group).filter(Boolean));
  return html`<datalist id="groups">${[...groups].sort().map((group) => html`<option value=${group} />`)}</datalist>`;
}

function Choice({ form, path, value, options, none }) {
  return html`
    <span class="control"><select ...${controlOf(form, path)} onChange=${(event) => form.type(path, event.target.value)}>
      <option value="" selected=${!value}>${none}</option>
      ${options.map(([key, words]) => html`<option value=${key} selected=${key === value}>${words}</option>`)}
    </select></span>
  `;
}

function Link({ field, path, value, form }) {
  const found = records(field.links).map((record) => [record.id, nameOf(field.links, record)]);
  // one that was put away since is still what it is
  if (value && !found.some(([id]) => id === value)) found.push([value, nameOf(field.links, recordById(field.links, value)) || 'not here yet']);
  return html`
    <${Labelled} field=${field} path=${path} form=${form} wide>
      <${Choice} form=${form} path=${path} value=${value} options=${found} none=${field.required ? 'choose' : 'none'} />
    <//>
  `;
}

// a rule follows from the first day; one written elsewhere stays as it is
function Recurrence({ field, path, value, form }) {
  const first = form.typedAt('first_day');
  const found = useWords(() => (first ? recurrences(first) : []), [first]);
  const options = Array.isArray(found) ? found.map(({ rule, words }) => [rule, words]) : [];
  if (value && !options.some(([rule]) => rule === value)) options.push([value, value]);
  return html`
    <${Labelled} field=${{ ...field, help: first ? 'When it comes round again' : 'Say a first day, then choose' }} path=${path} form=${form} wide>
      <${Choice} form=${form} path=${path} value=${value} options=${options} none="it does not recur" />
    <//>
  `;
}

function Items({ field, path, value, form }) {
  return html`
    <${List} field=${field} path=${path} form=${form} value=${value} blank=${() => ''}
      row=${(_, at) => html`<${RecordField} field=${field.item} path=${at} value=${form.typedAt(at)} form=${form} />`} />
  `;
}

function Rows({ field, path, value, form }) {
  return html`
    <${List} field=${field} path=${path} form=${form} value=${value} blank=${() => form.blankRow(path)}
      row=${(row, at) => field.fields.map((inner) => html`
        <${RecordField} field=${inner} path=${`${at}.${inner.name}`} value=${row[inner.name]} form=${form} />
      `)} />
  `;
}

function List({ field, path, value = [], form, row, blank }) {
  const problem = value.length > 0 && form.answer.problems[path];
  const add = async () => form.type(path, [...value, await blank()]);
  const one = field.item?.label ?? field.label.replace(/s$/, '');
  return html`
    <fieldset class="rows" data-list=${path}>
      <legend class="rows-name">${field.label}</legend>
      <p class="hint">${field.help}</p>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
      ${value.map((held, index) => html`
        <div class="row" key=${index}>
          <div class="fields">${row(held, `${path}.${index}`)}</div>
          <button type="button" class="quiet" aria-label=${`Take ${one} ${index + 1} away`}
            onClick=${() => form.type(path, value.filter((_, at) => at !== index))}>Take away</button>
        </div>
      `)}
      <button type="button" disabled=${value.length >= field.most} onClick=${add}>Add ${/^[aeiou]/i.test(one) ? 'an' : 'a'} ${one}</button>
    </fieldset>
  `;
}
