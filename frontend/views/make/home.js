/* Make opens on the cutting at hand; below it, strips that wait to be sewn, and today's checklists. */
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { stripsWaiting } from '../../data/cuts.js';
import { cutting, nextInWords } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { KeptState } from '../parts/kept-state.js';
import { useFacts, useFollowed } from '../parts/use-records.js';

export function MakeHome() {
  const checklist = calculatorNamed('safe-cutting-checklist');
  const signed = useFacts('checklist-signature') ?? [];
  const now = signed.filter((fact) => fact.day === today());
  const before = signed.filter((fact) => fact.day !== today());
  return html`
    <h1>Make</h1>
    <${CuttingAtHand} />
    <${Waiting} />
    <section class="plain">
      <h2>Checklists today</h2>
      ${now.length ? html`<${Signed} facts=${now} />`
        : html`<p class="lead">Nothing is signed today. Go through the checklist before the first cut.</p>`}
      <p><a class="button" href="/make/safe-cutting-checklist">${checklist.title}</a></p>
    </section>
    ${before.length > 0 && html`
      <section class="plain"><h2>Signed before</h2><${Signed} facts=${before} /></section>
    `}
  `;
}

function CuttingAtHand() {
  const plan = cutting();
  const { layout, wanted } = plan;
  const [path, words] = layout ? ['/make/cutting/steps', nextInWords(plan)]
    : ['/make/cutting', wanted.length ? 'Go on planning the cutting' : 'Plan what to cut'];
  return html`
    <section class="plain">
      <h2>Cutting</h2>
      <p><a class="button main" href=${path} data-cutting>${words}</a></p>
      ${layout && html`<p><a href="/make/cutting/layout">See the layout</a></p>`}
      <p><a href="/make/cuts">What was cut before</a></p>
    </section>
  `;
}

function Waiting() {
  const waiting = useFollowed(stripsWaiting, []) ?? [];
  if (!waiting.length) return null;
  return html`
    <section class="plain">
      <h2>Cut, and waiting for a batch</h2>
      <ul class="lines">${waiting.map(({ size, cloth, quantity }) => html`
        <li data-waiting=${quantity}><span>${nameOf('product', { size, cloth })}</span> <strong class="number">${quantity}</strong></li>`)}</ul>
    </section>
  `;
}

function Signed({ facts }) {
  return html`
    <ul class="lines">
      ${facts.map((fact) => html`
        <li key=${fact.id}>
          <span><a class="to-record" href=${`/make/signed/${fact.id}`}>${fact.day}, ${fact.tool}</a>
            <small>${fact.person}, ${fact.cloth}</small></span>
          <${KeptState} id=${fact.id} />
        </li>
      `)}
    </ul>
  `;
}
