/* Minutes in a piece, step by step as bars with their spread, and methods compared in words. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { timesOfMethods } from '../../data/times.js';
import { useFollowed } from '../parts/use-records.js';

const PER = { piece: 'a piece', batch: 'a batch', colour: 'a colour', thread: 'a thread' };

export function Times() {
  const told = useFollowed(timesOfMethods, []);
  return html`
    <h1>Times</h1>
    ${!told && html`<p class="hint" role="status">Adding up…</p>`}
    ${told && (told.methods.length ? html`<${Told} ...${told} />` : html`<p class="lead" data-none>Nothing is timed yet. Laps of a batch are, and what each step takes is told here.</p>`)}
  `;
}

function Told({ methods, compared }) {
  return html`
    ${compared && html`<${Compared} ...${compared} />`}
    ${methods.map((method) => html`<${Method} key=${method.method ?? ''} ...${method} />`)}
    <p class="hint">A bar is the mean of the laps; the line across it goes from the quickest lap to the slowest. Disturbed laps are no part of it.</p>
  `;
}

function Method({ method, name, batches, piece_minutes: each, steps }) {
  const scale = Math.max(...steps.map(({ most }) => most ?? 0));
  return html`
    <section class="plain" data-method=${method ?? ''} data-piece-minutes=${each}>
      <h2>${methodName(name)}</h2>
      <p>${each === null ? 'Some steps have no lap yet.' : html`A piece takes <strong class="number">${minutes(each)}</strong>, rest included.`} <small>${countInWords(batches, 'batch', 'batches')}</small></p>
      <ul class="lines">${steps.map((step) => html`<${Step} key=${step.name} step=${step} scale=${scale} />`)}</ul>
    </section>
  `;
}

function Step({ step, scale }) {
  const { name, per, observed, least, most } = step;
  if (observed === null) return html`<li data-step=${name}><span>${name} <small>no lap yet</small></span></li>`;
  const at = (value) => (100 * value) / scale;
  return html`
    <li data-step=${name} data-observed=${observed}>
      <span><strong>${name}</strong>
        <svg class="make-spread" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true"><rect width=${at(observed)} height="10" />
          <path d=${`M${at(least)} 5H${at(most)}M${at(least)} 1V9M${at(most)} 1V9`} /></svg>
        <small>${spreadOf(step)}</small>
        <small>${sureness(step)}</small></span>
      <strong class="number">${minutes(observed)} ${PER[per]}</strong>
    </li>
  `;
}

const spreadOf = ({ laps, least, most, disturbed, left_out: left }) =>
  [
    `${countInWords(laps, 'lap')}${laps > 1 ? `, from ${minutes(least)} to ${minutes(most)}` : ''}`,
    left > 0 && `${left} far off, left out`,
    disturbed > 0 && `${disturbed} disturbed`,
  ]
    .filter(Boolean)
    .join('; ');

function sureness({ laps, needed, precision }) {
  if (needed === null) return 'How sure that is shows from the second lap on.';
  const sure = precision === null ? '' : `Probably right to ${Math.ceil(precision)} % either way. `;
  return needed > laps ? `${sure}${countInWords(needed - laps, 'more lap brings', 'more laps bring')} it to 5 %.` : `${sure}Enough laps.`;
}

function Compared({ methods, best, against }) {
  const { mean } = methods.find(({ name }) => name === best);
  return html`
    <section class="plain">
      <h2>Methods compared</h2>
      <p><strong>${methodName(best)}</strong> took least so far: <span class="number">${minutes(mean)}</span> for a good piece.</p>
      <ul class="lines">${against.map(
        ({ name, difference, verdict, more }) => html`<li data-against=${name} data-verdict=${verdict}>
        <span>${methodName(name)} <small>${minutes(difference)} more</small></span>
        <strong>${verdict === 'clear' ? 'clear' : unclear(more)}</strong></li>`,
      )}</ul>
    </section>
  `;
}

// of more sittings than a year has, nobody waits for the answer
const MOST_BATCHES = 60;
const unclear = (more) =>
  more > MOST_BATCHES ? 'cannot tell: about alike' : `cannot tell yet${more ? `, ${countInWords(more, 'more batch', 'more batches')} of each` : ''}`;
const methodName = (name) => name || 'No method named';
const minutes = (value) => `${value.toLocaleString(undefined, { maximumFractionDigits: 2 })} min`;
