/* Make opens on the batch at hand and the strips that wait; then the cutting, and today's checklists. */
import { html } from 'htm/preact';
import { atTheBench } from '../../data/at-the-bench.js';
import { sewnInWords } from '../../data/batches.js';
import { calculatorNamed } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { cutting, nextInWords, REMNANT } from '../../data/cutting.js';
import { lapNow } from '../../data/laps.js';
import { batchInWords, dateInWords, nameOf } from '../../data/naming.js';
import { byMonth, Groups } from '../parts/groups.js';
import { KeptState } from '../parts/kept-state.js';
import { Refused } from '../parts/refused.js';
import { useAsked, useFacts } from '../parts/use-records.js';
import { BatchOrder } from './batch-order.js';
import { SewingPlans } from './sewing-plans.js';

export function MakeHome() {
  const checklist = calculatorNamed('safe-cutting-checklist');
  const signed = useFacts('checklist-signature');
  const [told, trouble] = useAsked(atTheBench, []);
  if (trouble) return html`<h1>Make</h1><${Refused} ...${trouble} />`;
  // all at once: what comes later would push the rest from under a finger
  if (!told || !signed) return html`<h1>Make</h1>`;
  const now = signed.filter((fact) => fact.day === today());
  const before = signed.filter((fact) => fact.day !== today());
  return html`
    <h1>Make</h1>
    ${told.refused.map((words) => html`<p class="problem" role="alert">${words}</p>`)}
    <${Sewing} open=${told.open} order=${told.order} />
    <${Waiting} waiting=${told.waiting} begun=${told.open.length > 0} />
    <${SewingPlans} told=${told.plans} />
    <${CuttingAtHand} />
    <section class="plain">
      <h2>Thread and times</h2>
      <p class="next-steps"><a class="button" href="/make/thread">Thread</a> <a class="button" href="/make/times">Times</a></p>
    </section>
    <section class="plain">
      <h2>Checklists today</h2>
      ${
        now.length
          ? html`<${Signed} facts=${now} />`
          : html`<p class="lead">Nothing is signed today. Go through the checklist before the first cut.</p>`
      }
      <p><a class="button" href="/make/safe-cutting-checklist">${checklist.title}</a></p>
    </section>
    ${
      before.length > 0 &&
      html`
      <section class="plain"><h2>Signed before</h2><${Groups} groups=${byMonth(before, ({ day }) => day)} line=${signedLine} /></section>
    `
    }
  `;
}

function Sewing({ open, order }) {
  if (!open.length) return null;
  return html`
    <section class="plain">
      <h2>Sewing now</h2>
      ${open.map(({ batch, standing }, index) => html`<p><a class=${index ? 'button' : 'button main'} href=${`/make/batches/${batch.id}`} data-batch=${batch.id}>${batchInWords(batch)}: ${nextStep(batch, standing)}</a><br /><small>${sewnInWords(batch)}</small></p>`)}
      <${BatchOrder} told=${order} />
    </section>
  `;
}

function nextStep({ id }, standing) {
  const lap = lapNow();
  if (lap?.batch === id) return `${lap.step}, ${lap.since ? 'a lap runs' : 'paused'}`;
  if (!standing) return 'open it';
  const { steps, next } = standing;
  if (next === null) return 'all sewn, finish it';
  const { name, per, done, of } = steps[next];
  return per === 'piece' ? `${name}, ${done} of ${of}` : name;
}

function CuttingAtHand() {
  const plan = cutting();
  const { layout, wanted } = plan;
  const [path, words] = layout
    ? ['/make/cutting/steps', nextInWords(plan)]
    : ['/make/cutting', wanted.length ? 'Go on planning the cutting' : 'Plan what to cut'];
  return html`
    <section class="plain">
      <h2>Cutting</h2>
      <p><a class="button main" href=${path} data-cutting>${words}</a></p>
      ${layout && html`<p><a href="/make/cutting/layout">See the layout</a></p>`}
      <${RemnantAtHand} />
      <p><a href="/make/cuts">What was cut before</a></p>
    </section>
  `;
}

// a remnant that is cut by itself, where it is begun
function RemnantAtHand() {
  const plan = cutting(REMNANT);
  return html`
    ${plan.layout && plan.made > 0 && html`<p><a class="button" href="/make/remnant/steps" data-remnant-cutting>${plan.layout.result.cloths[0].name}: ${nextInWords(plan)}</a></p>`}
    <p><a href="/make/remnant" data-remnant>What a remnant could give</a></p>
  `;
}

function Waiting({ waiting, begun }) {
  return html`
    <section class="plain">
      <h2>Cut, and waiting for a batch</h2>
      ${!waiting.length && html`<p class="lead">No strips wait.</p>`}
      <ul class="lines">${waiting.map(
        ({ size, cloth, quantity, claimed }) => html`
        <li data-waiting=${quantity}><span>${nameOf('product', { size, cloth })}${claimed > 0 && html`<small>${claimed} more are in a batch</small>`}</span> <strong class="number">${quantity}</strong></li>`,
      )}</ul>
      <p><a class=${waiting.length && !begun ? 'button main' : 'button'} href="/make/batches/new" data-start-batch>Start a batch</a></p>
      <p><a href="/make/batches">What was sewn before</a></p>
    </section>
  `;
}

function Signed({ facts }) {
  return html`
    <ul class="lines">
      ${facts.map(signedLine)}
    </ul>
  `;
}

const signedLine = (fact) => html`
        <li key=${fact.id}>
          <span><a class="to-record" href=${`/make/signed/${fact.id}`}>${dateInWords(fact.day)}, ${fact.tool}</a>
            <small>${fact.person}, ${fact.cloth}</small></span>
          <${KeptState} id=${fact.id} />
        </li>`;
