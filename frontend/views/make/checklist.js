/* The safe-cutting checklist: what is being used, the items to tick, and signing for the day. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { recall, remember } from '../../data/store.js';
import { CalculatorForm } from '../parts/form.js';
import { Results, valueText } from '../parts/results.js';
import { useForm } from '../parts/use-form.js';
import { Sign } from './sign.js';

export function Checklist() {
  const form = useForm(calculatorNamed('safe-cutting-checklist'));
  if (!form) return html`<h1>Safe cutting</h1>`;
  const { result } = form.answer;
  return html`
    <h1>${form.calculator.title}</h1>
    <p class="lead">${form.calculator.help}</p>
    <div class="work">
      <${CalculatorForm} form=${form} />
      <div class="work-seen">
        ${!result && html`<p class="lead">Choose the tool and the cloth to see what to mind.</p>`}
        ${result && html`<p class="print-only"><strong>${form.typed.tool}</strong>, ${form.typed.cloth}, ${today()}</p>`}
        ${result && html`<${Verdict} result=${result} />`}
        ${result && html`<${Items} key=${form.typed.tool} form=${form} />`}
        <${Results} form=${form} leaveOut=${['allowed', 'reason', 'use_instead', 'caution', 'disposal']} />
        ${result && html`<${Breaks} result=${result} />`}
        ${result && html`<p class="no-print"><button type="button" onClick=${() => print()}>Print</button></p>`}
      </div>
    </div>
  `;
}

function Verdict({ result }) {
  return html`
    <section class="verdict" data-allowed=${result.allowed}>
      <p data-output="allowed" data-value=${result.allowed} role=${result.allowed ? undefined : 'alert'}>
        ${result.allowed ? 'May be done, with these things minded.' : 'Not this way.'}
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
  const musts = result.items.filter((item) => item.must);
  const others = result.items.filter((item) => !item.must);
  const left = musts.filter((item) => !ticked.includes(item.id)).length;
  return html`
    <div data-output="items" data-value=${valueText(result.items)}>
      <${Group} title="Musts" items=${musts} ticked=${ticked} tick=${tick} />
      <${Group} title="Good habits" items=${others} ticked=${ticked} tick=${tick} />
    </div>
    <p class="disposal" data-output="disposal" data-value=${result.disposal}>${result.disposal}</p>
    <${Sign} form=${form} ticked=${ticked} left=${left} />
  `;
}

function Group({ title, items, ticked, tick }) {
  return html`
    <section class="plain">
      <h2>${title}</h2>
      <ul class="lines checklist">
        ${items.map((item) => html`
          <li key=${item.id} data-item=${item.id} data-must=${item.must || undefined}>
            <label class="tick" for=${`item-${item.id}`}>
              <input id=${`item-${item.id}`} type="checkbox" checked=${ticked.includes(item.id)}
                onChange=${(event) => tick(item.id, event.target.checked)} />
              <span>${item.text} <small>${item.when} · ${item.reason}</small></span>
            </label>
          </li>
        `)}
      </ul>
    </section>
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
