/* Make opens on today's checklists: what is signed, and what is to be signed before cutting. */
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { KeptState } from '../parts/kept-state.js';
import { useFacts } from '../parts/use-records.js';

export function MakeHome() {
  const checklist = calculatorNamed('safe-cutting-checklist');
  const signed = useFacts('checklist-signature') ?? [];
  const now = signed.filter((fact) => fact.day === today());
  const before = signed.filter((fact) => fact.day !== today());
  return html`
    <h1>Make</h1>
    <section class="plain">
      <h2>Today</h2>
      ${now.length ? html`<${Signed} facts=${now} />`
        : html`<p class="lead">Nothing is signed today. Go through the checklist before the first cut.</p>`}
      <p><a class="button main" href="/make/safe-cutting-checklist">${checklist.title}</a></p>
    </section>
    ${before.length > 0 && html`
      <section class="plain"><h2>Signed before</h2><${Signed} facts=${before} /></section>
    `}
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
