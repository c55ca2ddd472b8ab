/* A calculator's form, made from its declaration: groups of fields, lists of rows. */
import { html } from 'htm/preact';
import { withoutBlankRows } from '../../data/forms.js';
import { Field } from './field.js';

export function CalculatorForm({ form, titles = {} }) {
  const { calculator } = form;
  return html`
    <form data-calculator=${calculator.name} onSubmit=${(event) => event.preventDefault()} novalidate autocomplete="off">
      ${grouped(calculator.inputs.filter((field) => isAsked(field, form))).map(
        ([group, fields]) => html`
        <fieldset class="group" key=${group}>
          ${group && html`<legend>${group}</legend>`}
          <div class="fields">
            ${fields.map((field) => html`<${Entry} field=${field} path=${field.name} form=${form} values=${form.typed} titles=${titles} />`)}
          </div>
        </fieldset>
      `,
      )}
    </form>
  `;
}

// until the choice is made all that may depend on it is asked for, and always what is wrong
const isAsked = ({ name, when }, { typed, answer }) =>
  !when || !typed[when.field] || when.choices.includes(typed[when.field]) || answer.problems[name];

function Entry({ field, path, form, values, titles }) {
  if (field.quantity === 'list') return html`<${Rows} field=${field} form=${form} titles=${titles} />`;
  return html`<${Field} field=${field} path=${path} value=${values[field.name]} form=${form} />`;
}

function Rows({ field, form, titles }) {
  const rows = form.typed[field.name] ?? [];
  const what = titles[field.name] ?? 'row';
  // a list not yet begun is not yet wrong
  const begun = withoutBlankRows(form.calculator, form.typed)[field.name].length > 0;
  const problem = begun && form.answer.problems[field.name];
  return html`
    <div class="rows" data-list=${field.name}>
      <p class="hint">${field.help}</p>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
      ${rows.map(
        (row, index) => html`
        <details class="row" key=${index} open=${!row.folded}>
          <summary>${row.name || `${what} ${index + 1}`}</summary>
          <div class="fields" role="group" aria-label=${row.name || `${what} ${index + 1}`}>
            ${field.fields.map((inner) => {
              const path = `${field.name}.${index}.${inner.name}`;
              return html`<${Field} key=${path} field=${inner} path=${path} value=${row[inner.name]} form=${form} />`;
            })}
          </div>
          <button type="button" class="quiet" onClick=${() => form.removeRow(field.name, index)}>
            Take ${row.name || `${what} ${index + 1}`} away
          </button>
        </details>
      `,
      )}
      <button type="button" disabled=${rows.length >= field.most} onClick=${() => form.addRow(field.name, {})}>
        Add a ${what}
      </button>
    </div>
  `;
}

function grouped(fields) {
  const groups = new Map();
  for (const field of fields) {
    groups.set(field.group, [...(groups.get(field.group) ?? []), field]);
  }
  return [...groups];
}
