/* A calculator's answer: each output with its exact value, its words, and why. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { why } from '../../data/calculating.js';
import { textOf, unitsOf, withoutBlankRows } from '../../data/forms.js';
import { showMoney } from './money.js';

/** The outputs kept in view at the bottom. */
export function MainResults({ form }) {
  const fields = form.calculator.outputs.filter((field) => form.calculator.main.includes(field.name));
  return html`
    <div class="main-results" aria-live="polite">${fields.map((field) => html`<${Output} key=${field.name} field=${field} form=${form} />`)}</div>
    <${StillNeeded} form=${form} />
  `;
}

// beside the place of the answer, what it waits for: fields that are empty, and those that are wrong
function StillNeeded({ form }) {
  const { calculator, typed, answer } = form;
  const begun = withoutBlankRows(calculator, typed);
  const [empty, wrong] = [[], []];
  for (const [path, name] of places(calculator.inputs, begun)) {
    if (!(path in answer.problems)) continue;
    const value = path.split('.').reduce((held, part) => held?.[part], begun);
    (textOf(value).length ? wrong : empty).push(name);
  }
  const says = [empty.length > 0 && `Still needed: ${empty.join(', ')}.`, wrong.length > 0 && `To put right: ${wrong.join(', ')}.`].filter(Boolean);
  return says.length > 0 && html`<p class="hint" data-needed>${says.join(' ')}</p>`;
}

// every field in the form's order, with what it is called: of several rows, which
function places(inputs, typed) {
  return inputs.flatMap((field) => [
    [field.name, field.label],
    ...(field.fields && Array.isArray(typed[field.name]) ? typed[field.name] : []).flatMap((row, index) =>
      field.fields.map((inner) => [`${field.name}.${index}.${inner.name}`, `${inner.label} of ${row.name || `number ${index + 1}`}`]),
    ),
  ]);
}

/** All other single outputs, and the notes. */
export function Results({ form, leaveOut = [] }) {
  const { calculator, answer } = form;
  const shown = calculator.outputs.filter((field) => !calculator.main.includes(field.name) && !leaveOut.includes(field.name) && !field.fields);
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
      ${field.formula && value !== null ? html`<${Why} field=${field} form=${form}>${said}<//>` : html`<div class="said">${said}</div>`}
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

// the whole answer is the handle: a tap opens its formula with her numbers in it, which shuts when another is typed
function Why({ field, form, children }) {
  const [told, setTold] = useState(null);
  const handle = useRef(null);
  const openedOn = useRef(null);
  const typed = () => withoutBlankRows(form.calculator, form.typed);
  const standing = () => JSON.stringify([form.typed, form.units]);
  const open = async ({ target }) => {
    const mine = target.open ? standing() : null;
    openedOn.current = mine;
    const words = mine && (await why(form.calculator.name, typed(), unitsOf(form.calculator, typed(), form.units), field.name));
    if (mine === openedOn.current) setTold(words);
  };
  useLayoutEffect(() => {
    if (openedOn.current !== null && openedOn.current !== standing()) handle.current.open = false;
  });
  return html`
    <details class="why" ref=${handle} onToggle=${open}>
      <summary class="said">${children}<span class="why-word">why</span></summary>
      ${
        told &&
        html`
        <div class="why-told">
          <p>${told.words}</p>
          <p class="number">= ${told.numbers}</p>
          <p class="number">= ${told.equals}</p>
          ${
            told.matters.length > 0 &&
            html`
            <p>What matters most:</p>
            <ul>${told.matters.map((line) => html`<li>${line}</li>`)}</ul>
          `
          }
        </div>
      `
      }
    </details>
  `;
}
