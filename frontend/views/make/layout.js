/* The layout of each cloth to scale, with the proof of how good it is; it prints on a page a cloth. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { cautionsFor, cutting, keepCutting, laidCloths, layOut, nextInWords, toolFor } from '../../data/cutting.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { Missing, Proof } from '../parts/proof.js';
import { useWords } from '../parts/use-words.js';
import { cutInWords, lengthsIn } from './cut-words.js';

export function Layout() {
  const { plan, problem, stop } = useLayout();
  if (!plan.wanted.length) return html`<h1>Layout</h1><p class="lead">Nothing to lay out yet. <a href="/make/cutting">Say what to cut</a></p>`;
  if (problem) return html`<h1>Layout</h1><p class="problem" role="alert">${problem}</p><p><a class="button main" href="/make/cutting">Change the plan</a></p>`;
  return html`
    <h1>Layout</h1>
    ${plan.layout ? html`<${Found} plan=${plan} stop=${stop} />` : html`<p class="lead" role="status">Laying it out …</p>`}
  `;
}

// begun where none is there, or where the search was cut short; leaving the screen keeps the best so far
function useLayout() {
  const [plan, setPlan] = useState(cutting);
  const [problem, setProblem] = useState(null);
  const stopped = useRef(false);
  useEffect(() => {
    if (plan.wanted.length && !plan.layout?.done && !plan.made) {
      layOut(plan, setPlan, () => stopped.current).catch((error) => setProblem(error.message));
    }
    return () => {
      stopped.current = true;
    };
  }, []);
  const stop = () => {
    stopped.current = true;
    const kept = { ...plan, layout: { ...plan.layout, done: true } };
    keepCutting(kept);
    setPlan(kept);
  };
  return { plan, problem, stop };
}

function Found({ plan, stop }) {
  const { layout } = plan;
  const cloths = laidCloths(layout);
  return html`
    <${Proof} layout=${layout} stop=${stop} />
    <${Missing} layout=${layout} />
    ${cloths.map((cloth) => html`<${Cloth} key=${cloth.laid.cloth} cloth=${cloth} tool=${toolFor(plan, cloth)} />`)}
    <p class="no-print"><button type="button" onClick=${() => print()}>Print, a page a cloth</button></p>
    <div class="dock next-steps no-print">
      <a class="button" href="/make/cutting">Change</a>
      ${cloths.length > 0 && html`<a class="button main" href="/make/cutting/steps" data-to-cuts>${nextInWords(plan)}</a>`}
    </div>
  `;
}

function Cloth({ cloth: { laid, given }, tool }) {
  const words = useWords(() => lengthsIn(laid), [JSON.stringify(laid)]);
  const cautions = useWords(() => cautionsFor(tool), [tool]);
  if (!words || !cautions) return null;
  const pieces = laid.rows.reduce((sum, row) => sum + row.strips.length, 0);
  const taken = laid.length_to_buy === null ? `${words.used} of ${words.length} used` : `ask for ${words.toBuy}`;
  return html`
    <section class="laid" data-cloth=${laid.cloth}>
      <h2>${laid.name}</h2>
      <p>${pieces} strips in ${laid.rows.length} ${laid.rows.length === 1 ? 'row' : 'rows'}, <strong class="number">${taken}</strong></p>
      <${LayoutDrawing} laid=${laid} given=${given} title=${`${pieces} strips on ${laid.name}, to scale`}
        caption=${`The cloth's length lies to the right, ${words.width} wide between the edges.${given.nap ? ' The arrows are the way the nap lies.' : ''}`} />
      <ul class="cuts">${words.strips.map(({ name, quantity, size }) => html`<li>${quantity} × ${name}, ${size}</li>`)}</ul>
      <ol class="cuts">${laid.cuts.map((cut, index) => html`<li>${cutInWords(cut, words.settings[index], given, laid)}</li>`)}</ol>
      <p class="caution">${cautions.musts.join(' ')} ${cautions.caution}</p>
    </section>
  `;
}
