/* A calculator's answer: each output with its exact value, its words, and why. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { why } from '../../data/calculating.js';
import { unitsOf, withoutBlankRows } from '../../data/forms.js';
import { showMoney } from './money.js';

/** The outputs kept in view at the bottom. */
export function MainResults({ form }) {
  const fields = form.calculator.outputs.filter((field) => form.calculator.main.includes(field.name));
  return html`<div class="main-results" aria-live="polite">${fields.map((field) => html`<${Output} key=${field.name} field=${field} form=${form} />`)}</div>`;
}

/** All other single outputs, and the notes. */
export function Results({ form, leaveOut = [] }) {
  const { calculator, answer } = form;
  const shown = calculator.outputs.filter(
    (field) => !calculator.main.includes(field.name) && !leaveOut.includes(field.name) && !field.fields,
  );
  return html`
    <${Notes} notes=${answer.notes} />
    <div class="results">
      ${shown.map((field) => html`<${Output} key=${field.name} field=${field} form=${form} />`)}
    </div>
  `;
}

export function Notes({ notes }) {
  if (!notes.length) return null;
  return html`<ul class="notes">${notes.map((note) => html`<li data-note=${note.rule}>${note.text}</li>`)}</ul>`;
}

function Output({ field, form }) {
  const value = form.answer.result?.[field.name] ?? null;
  if (value === null && !form.calculator.main.includes(field.name)) return null;
  const said = html`
    <span class="label">${field.label}</span>
    <span class="number">${words(field, value, form.answer.shown[field.name])}</span>
  `;
  return html`
    <div class="output" data-output=${field.name} data-value=${valueText(value)} data-unit=${field.base_unit || undefined}>
      ${field.formula && value !== null
        ? html`<${Why} field=${field} form=${form}>${said}<//>`
        : html`<div class="said">${said}</div>`}
    </div>
  `;
}

/** A value as its attribute holds it: exact, lists as JSON, nothing for none. */
export function valueText(value) {
  if (value === null || value === undefined) return '';
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}

/** A value in words: money by the phone's language, the rest by the core. */
export function words(field, value, shown) {
  if (value === null) return '—';
  return field.quantity.startsWith('money') ? showMoney(value, field.quantity) : shown;
}

// the whole answer is the handle: a tap opens its formula with her numbers in it
function Why({ field, form, children }) {
  const [told, setTold] = useState(null);
  const open = async (event) => {
    if (!event.target.open) return setTold(null);
    const typed = withoutBlankRows(form.calculator, form.typed);
    return setTold(await why(form.calculator.name, typed, unitsOf(form.calculator, typed, form.units), field.name));
  };
  return html`
    <details class="why" key=${JSON.stringify([form.typed, form.units])} onToggle=${open}>
      <summary class="said">${children}<span class="why-word">why</span></summary>
      ${told && html`
        <div class="why-told">
          <p>${told.words}</p>
          <p class="number">= ${told.numbers}</p>
          <p class="number">= ${told.equals}</p>
          ${told.matters.length > 0 && html`
            <p>What matters most:</p>
            <ul>${told.matters.map((line) => html`<li>${line}</li>`)}</ul>
          `}
        </div>
      `}
    </details>
  `;
}
