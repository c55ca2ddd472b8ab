/* The cuts one by one, in large type: the checklist first, and at the end what came of it is kept. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { lengthsInWords } from '../../data/calculating.js';
import { cautionsFor, cutsOf, cutting, isSigned, keepCutting, offcutsOf, recordCut, stripsOf, toolFor, tools, undoCut } from '../../data/cutting.js';
import { passOn } from '../../data/forms.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { cutInWords, lengthsIn, rowsInWords } from './cut-words.js';

export function Steps() {
  const [plan, setPlan] = useState(cutting);
  const change = (chosen) => {
    const next = { ...plan, ...chosen };
    keepCutting(next);
    setPlan(next);
  };
  if (!plan.layout) return html`<h1>Cuts</h1><p class="lead">Nothing is laid out. <a href="/make/cutting">Say what to cut</a></p>`;
  const cuts = cutsOf(plan.layout);
  if (plan.made >= cuts.length) return html`<${AllCut} plan=${plan} change=${change} />`;
  return html`<${Step} plan=${plan} change=${change} cuts=${cuts} />`;
}

function Step({ plan, change, cuts }) {
  const { cloth, cut } = cuts[plan.made];
  const tool = toolFor(plan, cloth);
  const signed = useFollowed(() => isSigned(tool), [tool]);
  const count = `Cut ${plan.made + 1} of ${cuts.length}`;
  if (signed === null) return html`<h1>${count}</h1>`;
  if (!signed) return html`<${First} plan=${plan} change=${change} tool=${tool} torn=${cloth.given.tear} layers=${Math.max(...cuts.map((one) => one.cut.layers))} />`;
  return html`<${Cut} key=${cloth.laid.cloth} plan=${plan} change=${change} cloth=${cloth} cut=${cut} tool=${tool} count=${count} />`;
}

// nobody cuts before the tool's checklist is signed for the day
function First({ plan, change, tool, torn, layers }) {
  const { route } = useLocation();
  const toList = async () => {
    await passOn('safe-cutting-checklist', { tool, layers });
    route('/make/safe-cutting-checklist');
  };
  return html`
    <h1>Before the first cut</h1>
    ${!torn && html`<${Choice} id="cut-tool" name="tool" label="Cut with" value=${plan.tool} set=${(chosen) => change({ tool: chosen })}
      choices=${tools().map((one) => [one, one])} />`}
    <p class="lead">Go through today's checklist for ${torn ? 'tearing' : `the ${tool}`} and sign it. It brings you back here.</p>
    <div class="dock next-steps"><button type="button" class="main" data-to-checklist onClick=${toList}>Go through the checklist</button></div>
  `;
}

function Cut({ plan, change, cloth: { laid, given }, cut, tool, count }) {
  const words = useWords(() => lengthsIn(laid), [laid.cloth]);
  const cautions = useWords(() => cautionsFor(tool), [tool]);
  const go = (made) => change({ made });
  if (!words || !cautions) return html`<h1>${count}</h1>`;
  const setting = words.settings[laid.cuts.indexOf(cut)];
  return html`
    <h1>${count}</h1>
    <p class="lead">${laid.name}</p>
    <p class="setting" data-setting=${cut.setting}><span>${given.tear ? 'Tear at' : 'Ruler at'}</span> <strong class="number">${setting}</strong></p>
    <p class="instruction" role="status">${cutInWords(cut, setting, given, laid)}</p>
    <${LayoutDrawing} laid=${laid} given=${given} heights=${words.heights} marked=${cut.rows} title=${`${laid.name} with ${rowsInWords(cut.rows)} marked`} caption="What this cut is about is marked." />
    <p class="caution">${cautions.before_phone ?? cautions.musts.join(' ')}</p>
    <div class="dock next-steps">
      ${plan.made > 0 && html`<button type="button" data-back onClick=${() => go(plan.made - 1)}>Back</button>`}
      <button type="button" class="main" data-next onClick=${() => go(plan.made + 1)}>Done, next</button>
    </div>
  `;
}

function AllCut({ plan, change }) {
  const { route } = useLocation();
  const strips = stripsOf(plan);
  const offcuts = offcutsOf(plan.layout);
  const words = useWords(() => lengthsInWords(offcuts.flatMap(({ width, length }) => [width, length]), 'cm'), [offcuts.length]);
  const keep = (key, on) => change({ kept: on ? [...plan.kept, key] : plan.kept.filter((other) => other !== key) });
  const undo = (cuts) => saying('Taken back: it is still to be kept', () => undoCut(plan, cuts));
  const record = useOnce(async () => {
    if (await saying('Kept: the strips wait for a batch', () => recordCut(plan), undo)) route('/make');
  });
  return html`
    <h1>All cut</h1>
    <section class="plain">
      <h2>Good strips</h2>
      <ul class="lines">${strips.map(({ key, size, from, quantity }) => {
        const name = `${nameOf('piece', recordById('piece', size))}, ${from}`;
        return html`<li key=${key}><span>${name}</span> <${Stepper} name=${name} value=${quantity} set=${(good) => change({ good: { ...plan.good, [key]: good } })} /></li>`;
      })}</ul>
    </section>
    ${offcuts.length > 0 && html`
      <section class="plain">
        <h2>Keep as remnants</h2>
        <ul class="lines">${offcuts.map(({ key, name }, index) => html`
          <li key=${key} data-offcut=${key}>
            <label class="tick"><input type="checkbox" checked=${plan.kept.includes(key)} onChange=${({ target }) => keep(key, target.checked)} />
              <span>${words[2 * index]} × ${words[2 * index + 1]}<small>${name}</small></span></label></li>`)}</ul>
      </section>
    `}
    <div class="dock next-steps">
      <button type="button" data-back onClick=${() => change({ made: plan.made - 1 })}>Back</button>
      <button type="button" class="main" data-record onClick=${record}>Keep it</button>
    </div>
  `;
}
