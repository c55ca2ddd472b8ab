/* One field of a record's form: what a calculator's form has, and links, days, lists besides. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { describeNew } from '../../data/actions.js';
import { kindNamed, recurrences } from '../../data/calculating.js';
import { nameOf } from '../../data/naming.js';
import { groups } from '../../data/products.js';
import { mayAdd, recordById, records } from '../../data/records.js';
import { Field } from '../parts/field.js';
import { saying, useOnce } from '../parts/notice.js';
import { useWords } from '../parts/use-words.js';
import { Missing, thereAndBack } from '../parts/way-back.js';
import { KINDS } from './record-kinds.js';

const NATIVE = { date: 'date', time: 'time' };

export function RecordField({ field, path, value, form }) {
  if (field.item?.name === 'group') return html`<${Groups} field=${field} path=${path} value=${value} form=${form} />`;
  if (field.item) return html`<${Items} field=${field} path=${path} value=${value} form=${form} />`;
  if (field.quantity === 'list') return html`<${Rows} field=${field} path=${path} value=${value} form=${form} />`;
  // what leads to another fact is not chosen from a list
  if (field.quantity === 'id')
    return kindNamed(field.links)?.fact === false && html`<${Link} field=${field} path=${path} value=${value} form=${form} />`;
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
      ${list && html`<datalist id="groups">${groups().map((group) => html`<option value=${group} />`)}</datalist>`}
    <//>
  `;
}

// groups are those of the products, and what was chosen before
function Groups({ field, path, value = [], form }) {
  const known = [...new Set([...groups(), ...value])];
  const problem = value.length > 0 && form.answer.problems[path];
  const choose = (group) => form.type(path, value.includes(group) ? value.filter((other) => other !== group) : [...value, group]);
  return html`
    <fieldset class="rows" data-list=${path}>
      <legend class="settings-rows-name">${field.label}</legend>
      <p class="hint">${field.help}</p>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
      ${known.length ? html`<p class="start-from">${known.map((group) => html`<button type="button" class="chip" key=${group} aria-pressed=${value.includes(group)} onClick=${() => choose(group)}>${group}</button>`)}</p>` : html`<${Missing} kind="product" says="No product has a group yet. A new size's products are a group of its name." does="Say what you sell" path="/sell/goods" />`}
    </fieldset>
  `;
}

function Choice({ form, path, value, options, none, choose = (chosen) => form.type(path, chosen) }) {
  return html`
    <span class="control"><select ...${controlOf(form, path)} onChange=${({ target }) => choose(target.value)}>
      <option value="" selected=${!value}>${none}</option>
      ${options.map(([key, words]) => html`<option value=${key} selected=${key === value}>${words}</option>`)}
    </select></span>
  `;
}

const ANOTHER = '\n';

function Link({ field, path, value, form }) {
  const { route } = useLocation();
  const [naming, setNaming] = useState(false);
  const found = records(field.links).map((record) => [record.id, nameOf(field.links, record)]);
  // one that was put away since is still what it is
  if (value && !found.some(([id]) => id === value)) found.push([value, nameOf(field.links, recordById(field.links, value)) || 'not here yet']);
  const { one } = KINDS.find(({ name }) => name === field.links) ?? {};
  const another = one && mayAdd(field.links) && [ANOTHER, one.replace(/^An? /, 'a new ')];
  const choose = (id) => {
    if (id !== ANOTHER) form.type(path, id);
    else if (isNamedOnly(field.links)) setNaming(true);
    else {
      form.keep();
      route(thereAndBack(`/settings/${field.links}/new?field=${path}`));
    }
  };
  const done = (id) => {
    setNaming(false);
    if (id) form.type(path, id);
  };
  return html`
    <${Labelled} field=${field} path=${path} form=${form} wide>
      ${
        naming
          ? html`<${NewName} id=${idOf(form, path)} kind=${field.links} done=${done} />`
          : html`<${Choice} form=${form} path=${path} value=${value} options=${another ? [...found, another] : found} none=${field.required ? 'choose' : 'none'} choose=${choose} />`
      }
    <//>
  `;
}

// a kind of which nothing but the name must be said
const isNamedOnly = (kind) => kindNamed(kind).fields.every((field) => !field.required || field.name === 'name');

function NewName({ id, kind, done }) {
  const [name, setName] = useState('');
  const input = useRef();
  useLayoutEffect(() => input.current.focus(), []);
  const add = useOnce(
    async () => name.trim() && done(await saying(`${name.trim()} is saved on this phone`, () => describeNew(kind, { name: name.trim() }))),
  );
  const keyed = (event) => {
    if (event.key === 'Escape') done(null);
    // the form round it is not sent
    else if (event.key === 'Enter') add(event);
  };
  return html`
    <span class="control" data-new-name=${kind}><input id=${id} autocomplete="off" maxlength="60" value=${name} ref=${input}
      onInput=${({ target }) => setName(target.value)} onKeyDown=${keyed} />
      <button type="button" disabled=${!name.trim()} onClick=${add}>Add</button>
      <button type="button" onClick=${() => done(null)}>Cancel</button></span>
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
      row=${(row, at) =>
        field.fields.map(
          (inner) => html`
        <${RecordField} field=${inner} path=${`${at}.${inner.name}`} value=${row[inner.name]} form=${form} />
      `,
        )} />
  `;
}

function List({ field, path, value = [], form, row, blank }) {
  const problem = value.length > 0 && form.answer.problems[path];
  const add = async () => {
    const row = await blank();
    // what was typed meanwhile stays
    form.type(path, [...(form.typedAt(path) ?? []), row]);
  };
  const one = field.item?.label ?? field.label.replace(/s$/, '');
  return html`
    <fieldset class="rows" data-list=${path}>
      <legend class="settings-rows-name">${field.label}</legend>
      <p class="hint">${field.help}</p>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
      ${value.map(
        (held, index) => html`
        <div class="row" key=${index}>
          <div class="fields">${row(held, `${path}.${index}`)}</div>
          <button type="button" class="quiet" aria-label=${`Take ${one} ${index + 1} away`}
            onClick=${() =>
              form.type(
                path,
                value.filter((_, at) => at !== index),
              )}>Take away</button>
        </div>
      `,
      )}
      <button type="button" disabled=${value.length >= field.most} onClick=${add}>Add ${/^[aeiou]/i.test(one) ? 'an' : 'a'} ${one}</button>
    </fieldset>
  `;
}
