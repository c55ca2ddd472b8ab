/* The layout of each cloth to scale, with the proof of how good it is; it prints on a page a cloth. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { cautionsFor, cutting, keepCutting, laidCloths, layOut, nextInWords, toolFor } from '../../data/cutting.js';
import { ElasticCuts } from '../parts/elastic.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { Missing, Proof } from '../parts/proof.js';
import { useSearch } from '../parts/use-search.js';
import { useWords } from '../parts/use-words.js';
import { cutInWords, lengthsIn } from './cut-words.js';

export function Layout() {
  const [before] = useState(cutting);
  const { told, problem, stop } = useSearch((show, stopped) => (isToFind(before) ? layOut(before, show, stopped) : Promise.resolve()), []);
  if (!before.wanted.length) return html`<h1>Layout</h1><p class="lead">Nothing to lay out yet. <a href="/make/cutting">Say what to cut</a></p>`;
  if (problem)
    return html`<h1>Layout</h1><p class="problem" role="alert">${problem}</p><p><a class="button main" href="/make/cutting">Change the plan</a></p>`;
  const plan = { ...before, layout: told ?? before.layout };
  return html`
    <h1>Layout</h1>
    ${plan.layout ? html`<${Found} plan=${plan} stop=${() => keepCutting({ ...before, layout: stop() })} />` : html`<p class="lead" role="status">Laying it out …</p>`}
  `;
}

// where none is there, or the search was cut short; leaving the screen keeps the best so far
const isToFind = ({ wanted, layout, made }) => wanted.length > 0 && !layout?.done && !made;

function Found({ plan, stop }) {
  const { layout } = plan;
  const cloths = laidCloths(layout);
  return html`
    <${Proof} layout=${layout} stop=${stop} />
    <${Missing} layout=${layout} />
    ${cloths.map((cloth) => html`<${Cloth} key=${cloth.laid.cloth} cloth=${cloth} tool=${toolFor(plan, cloth)} />`)}
    <${ElasticCuts} plan=${layout} />
    <p class="no-print"><button type="button" onClick=${() => print()}>Print, a page a cloth</button></p>
    <div class="dock next-steps no-print">
      <a class="button" href="/make/cutting">Change</a>
      ${cloths.length > 0 && html`<a class="button main" href="/make/cutting/steps" data-to-cuts>${nextInWords(plan)}</a>`}
    </div>
  `;
}

function Cloth({ cloth: { laid: latest, given }, tool }) {
  const key = JSON.stringify(latest);
  const words = useWords(async () => ({ key, ...(await lengthsIn(latest)) }), [key]);
  const cautions = useWords(() => cautionsFor(tool), [tool]);
  if (!words || !cautions) return null;
  // shown as it was put in words: a better one may be there already
  const { laid } = words;
  const pieces = laid.rows.reduce((sum, row) => sum + row.strips.length, 0);
  const taken = laid.length_to_buy === null ? `${words.used} of ${words.length} used` : `ask for ${words.toBuy}`;
  return html`
    <section class="make-laid" data-cloth=${laid.cloth} data-latest=${words.key === key}>
      <h2>${laid.name}</h2>
      <p>${pieces} strips in ${countInWords(laid.rows.length, 'row')}, <strong class="number">${taken}</strong></p>
      <${LayoutDrawing} laid=${laid} given=${given} heights=${words.heights} title=${`${pieces} strips on ${laid.name}, to scale`}
        caption=${`The cloth's length lies to the right, ${words.width} wide between the edges.${given.nap ? ' The arrows are the way the nap lies.' : ''}`} />
      <ul class="cuts">${words.strips.map(({ name, quantity, size }) => html`<li>${quantity} × ${name}, ${size}</li>`)}</ul>
      <ol class="cuts">${laid.cuts.map((cut, index) => html`<li>${cutInWords(cut, words.settings[index], given, laid)}</li>`)}</ol>
      <p class="caution">${cautions.musts.join(' ')} ${cautions.caution}</p>
    </section>
  `;
}
