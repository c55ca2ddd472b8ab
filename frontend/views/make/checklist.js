/* The safe-cutting checklist: what is being used, what to tick before, mind meanwhile and tick after, and signing for the day. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { dateInWords } from '../../data/naming.js';
import { recall, remember } from '../../data/store/remembered.js';
import { CalculatorForm } from '../parts/form.js';
import { Results, valueText } from '../parts/results.js';
import { useForm } from '../parts/use-form.js';
import { Sign, useSigned } from './sign.js';

export function Checklist() {
  const form = useForm(calculatorNamed('safe-cutting-checklist'));
  if (!form) return html`<h1>Safe cutting and sewing</h1>`;
  const { result } = form.answer;
  return html`
    <h1>${form.calculator.title}</h1>
    <p class="lead">${form.calculator.help}</p>
    <div class="work">
      <${CalculatorForm} form=${form} />
      <div class="work-seen">
        ${!result && html`<p class="lead">Choose the tool and the cloth to see what to mind.</p>`}
        ${result && html`<p class="print-only"><strong>${form.typed.tool}</strong>, ${form.typed.cloth}, ${dateInWords(today())}</p>`}
        ${result && html`<${Verdict} result=${result} />`}
        ${result && html`<${Items} key=${form.typed.tool} form=${form} />`}
        <${Results} form=${form} leaveOut=${['verdict', 'allowed', 'reason', 'use_instead', 'caution', 'disposal']} />
        ${result && html`<${Breaks} result=${result} />`}
        ${result && html`<p class="no-print"><button type="button" onClick=${() => print()}>Print</button></p>`}
      </div>
    </div>
  `;
}

function Verdict({ result }) {
  return html`
    <section class="verdict" data-allowed=${result.allowed} data-output="allowed" data-value=${result.allowed}>
      <p data-output="verdict" data-value=${result.verdict} role=${result.allowed ? undefined : 'alert'}>
        ${result.verdict}.
      </p>
      ${!result.allowed && html`<p data-output="reason" data-value=${result.reason}>${result.reason}</p>`}
      ${!result.allowed && html`<p data-output="use_instead" data-value=${result.use_instead}>Instead: ${result.use_instead}</p>`}
      <p class="caution" data-output="caution" data-value=${result.caution}>${result.caution}</p>
    </section>
  `;
}

function Items({ form }) {
  const { result } = form.answer;
  const key = `ticks:${today()}:${form.typed.tool}`;
  const [ticked, setTicked] = useState(() => recall(key, []));
  const tick = (id, on) => {
    const next = on ? [...ticked, id] : ticked.filter((other) => other !== id);
    setTicked(next);
    remember(key, next);
  };
  const [before, during, after] = WHENS.map((when) => result.items.filter((item) => item.when === when));
  const signed = useSigned(form.answer.input.tool);
  return html`
    <div data-output="items" data-value=${valueText(result.items)}>
      <${Part} title="Before" when="before" items=${before} ticked=${ticked} tick=${tick} />
      <${Sign} form=${form} ticked=${ticked} items=${before} />
      <${Part} title="While you work" when="during" items=${during} />
      <${Part} title="After" when="after" items=${after} ticked=${ticked} tick=${signed && tick} />
    </div>
    <p data-output="disposal" data-value=${result.disposal}>${result.disposal}</p>
  `;
}

const WHENS = ['before', 'during', 'after'];

// ticked where its time has come, and read where it has not
function Part({ title, when, items, ticked, tick }) {
  if (!items.length) return null;
  return html`
    <section class="plain" data-when=${when}>
      <h2>${title}</h2>
      <ul class="lines make-checklist">${items.map((item) => html`<${Item} key=${item.id} item=${item} ticked=${ticked} tick=${tick} />`)}</ul>
    </section>
  `;
}

function Item({ item: { id, text, reason, must, skippable }, ticked, tick }) {
  const words = html`<span>${text} <small>${reason}${!skippable && ' Without it, not at all.'}</small></span>`;
  return html`
    <li data-item=${id} data-must=${must || undefined}>
      ${
        tick
          ? html`<label class="tick" for=${`item-${id}`}>
        <input id=${`item-${id}`} type="checkbox" checked=${ticked.includes(id)} onChange=${({ target }) => tick(id, target.checked)} />
        ${words}
      </label>`
          : html`<p class="tick">${words}</p>`
      }
    </li>
  `;
}

function Breaks({ result }) {
  if (!result.breaks.length) return html`<div hidden data-output="breaks" data-value="[]"></div>`;
  return html`
    <section class="plain" data-output="breaks" data-value=${valueText(result.breaks)}>
      <h2>Breaks</h2>
      <ul class="lines">
        ${result.breaks.map((rest) => html`<li>After ${rest.after} min, rest ${rest.rest} min: ${rest.do}</li>`)}
      </ul>
    </section>
  `;
}
