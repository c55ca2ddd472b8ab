/* One field: its label, what is typed, the unit it is typed in, and what is wrong with it. */
import { useMemo } from 'preact/hooks';
import { html } from 'htm/preact';
import { currency } from '../../data/preferences.js';
import { nextEighth, shownUnit, textOf } from '../../data/forms.js';
import { declared } from '../../data/calculating.js';
import { useInTurn } from './notice.js';

/** A field of a form. At each key only those are drawn anew of which something changed. */
export function Field({ field, path, value, form }) {
  const problem = shownProblem(form, path, value);
  const unit = field.quantity === 'money' ? currency() : shownUnit(field, path, form.units);
  return useMemo(() => drawn(field, path, value, form, problem), [field, path, value, problem, unit, form.type]);
}

function drawn(field, path, value, form, problem) {
  const id = `${form.calculator.name}-${path}`;
  const described = problem ? `${id}-problem ${id}-help` : `${id}-help`;
  const control = { id, name: path, 'aria-describedby': described, 'aria-invalid': problem ? 'true' : undefined };
  const Control = field.quantity === 'flag' ? Flag : controlFor(field);
  return html`
    <div class="field" data-quantity=${field.quantity}>
      <label for=${id}>${field.label}</label>
      <${Control} field=${field} path=${path} value=${value} form=${form} control=${control} />
      <p class="help" id=${`${id}-help`}>${field.help}</p>
      ${problem && html`<p class="problem" id=${`${id}-problem`}>${problem}</p>`}
    </div>
  `;
}

function controlFor(field) {
  if (field.choices) return Choice;
  return field.quantity === 'length' ? Length : Plain;
}

// an empty field that is needed is not yet wrong: it only waits
function shownProblem(form, path, value) {
  const problem = form.answer.problems[path];
  return problem && (value ?? '') !== '' ? problem : null;
}

function Plain({ field, path, value, form, control }) {
  const unit = { money: currency(), percent: '%', ratio: '×', minutes: 'min' }[field.quantity];
  return html`
    <span class="control">
      <input ...${control} type="text" inputmode=${inputMode(field)} value=${value ?? ''}
        data-unit=${field.quantity === 'money' ? currency() : field.unit || undefined}
        onInput=${(event) => form.type(path, event.target.value)} />
      ${unit && html`<span class="unit" aria-hidden="true">${unit}</span>`}
    </span>
  `;
}

function Length({ field, path, value, form, control }) {
  const unit = shownUnit(field, path, form.units);
  const inTurn = useInTurn();
  const step = (up) =>
    inTurn(async () => {
      const before = form.typedAt(path);
      const next = await nextEighth(before, up);
      // what was typed meanwhile stays
      if (form.typedAt(path) === before) await form.type(path, next);
    });
  return html`
    <span class="control">
      <input ...${control} type="text" inputmode="decimal" value=${textOf(value)}
        data-unit=${unit} onInput=${(event) => form.type(path, event.target.value)} />
      ${IN_EIGHTHS.has(unit) && html`<${Eighths} field=${field} step=${step} />`}
      <select class="unit" aria-label=${`${field.label}: unit`} data-unit-of=${path}
        onChange=${({ target: { value: to } }) => inTurn(() => form.setUnit(field, path, unit, to))}>
        ${declared().length_units.map((name) => html`<option value=${name} selected=${name === unit}>${name}</option>`)}
      </select>
    </span>
  `;
}

const IN_EIGHTHS = new Set(['in', 'yd']);

// the pad for digits has no stroke: while a field is typed in, a tap takes it to the next eighth
function Eighths({ field, step }) {
  const ways = [
    [false, '− ⅛', 'an eighth less'],
    [true, '+ ⅛', 'an eighth more'],
  ];
  // the field keeps the focus, and with it the pad
  return html`
    <span class="eighths" onMouseDown=${(event) => event.preventDefault()}>
      ${ways.map(([up, sign, words]) => html`<button type="button" aria-label=${`${field.label}: ${words}`} onClick=${() => step(up)}>${sign}</button>`)}
    </span>
  `;
}

function Choice({ field, path, value, form, control }) {
  return html`
    <span class="control">
      <select ...${control} data-unit=${field.base_unit || undefined} onChange=${(event) => form.type(path, event.target.value)}>
        ${!field.required && field.default === null && html`<option value="" selected=${!value}>not set</option>`}
        ${field.required && html`<option value="" disabled selected=${!value}>choose</option>`}
        ${field.choices.map(
          (choice, index) => html`
          <option value=${String(choice)} selected=${String(choice) === String(value)}>${field.choice_words?.[index] ?? choice}</option>
        `,
        )}
      </select>
    </span>
  `;
}

function Flag({ path, value, form, control }) {
  return html`
    <label class="control check">
      <input ...${control} type="checkbox" checked=${value === true} onChange=${(event) => form.type(path, event.target.checked)} />
      <span aria-hidden="true">${value ? 'yes' : 'no'}</span>
    </label>
  `;
}

function inputMode(field) {
  if (field.quantity === 'text') return 'text';
  return field.quantity === 'count' ? 'numeric' : 'decimal';
}
