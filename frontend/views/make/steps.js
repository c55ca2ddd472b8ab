/* The cuts one by one, in large type: what the checklist asks before, during and after them, and at the end what came of it is kept. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import {
  askedAfter,
  cautionsFor,
  cutsOf,
  cutting,
  isSigned,
  keepCutting,
  offcutsKept,
  leaveWork,
  offcutsOf,
  PLAN,
  REMNANT,
  recordCut,
  stripsOf,
  toolFor,
  tools,
  undoCut,
} from '../../data/cutting.js';
import { passOn } from '../../data/forms.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed } from '../parts/use-records.js';
import { useLengths, useWords } from '../parts/use-words.js';
import { cutInWords, lengthsIn, rowsInWords } from './cut-words.js';

export function Steps({ of = PLAN }) {
  const [plan, setPlan] = useState(() => cutting(of));
  const change = (chosen) => {
    const next = { ...plan, ...chosen };
    keepCutting(next, of);
    setPlan(next);
  };
  if (!plan.layout)
    return html`<h1>Cuts</h1><p class="lead">Nothing is laid out. <a href=${of === REMNANT ? '/make/remnant' : '/make/cutting'}>Say what to cut</a></p>`;
  const cuts = cutsOf(plan.layout);
  if (plan.made >= cuts.length) return html`<${AllCut} plan=${plan} change=${change} of=${of} />`;
  return html`<${Step} plan=${plan} change=${change} cuts=${cuts} of=${of} />`;
}

/** The cuts of a remnant that is cut by itself. */
export const RemnantSteps = () => html`<${Steps} of=${REMNANT} />`;

function Step({ plan, change, cuts, of }) {
  const { cloth, cut } = cuts[plan.made];
  const tool = toolFor(plan, cloth);
  const signed = useFollowed(() => isSigned(tool), [tool]);
  const count = `Cut ${plan.made + 1} of ${cuts.length}`;
  if (signed === null) return html`<h1>${count}</h1>`;
  if (!signed)
    return html`<${First} plan=${plan} change=${change} of=${of} tool=${tool} torn=${cloth.given.tear} layers=${Math.max(...cuts.map((one) => one.cut.layers))} />`;
  return html`<${Cut} key=${cloth.laid.cloth} plan=${plan} change=${change} cloth=${cloth} cut=${cut} tool=${tool} count=${count} />`;
}

// nobody cuts before the tool's checklist is signed for the day
function First({ plan, change, of, tool, torn, layers }) {
  const { route } = useLocation();
  const toList = async () => {
    leaveWork(of);
    await passOn('safe-cutting-checklist', { tool, layers });
    route('/make/safe-cutting-checklist');
  };
  return html`
    <h1>Before the first cut</h1>
    ${
      !torn &&
      html`<${Choice} id="cut-tool" name="tool" label="Cut with" value=${plan.tool} set=${(chosen) => change({ tool: chosen })}
      choices=${tools().map((one) => [one, one])} />`
    }
    <p class="lead">Tick what comes before ${torn ? 'tearing' : `work with the ${tool}`}, and sign it for the day. It brings you back here; what to mind while you cut stands beside each cut, and what comes after is asked after the last.</p>
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
    <p data-setting=${cut.setting}><span>${given.tear ? 'Tear at' : 'Ruler at'}</span> <strong class="number">${setting}</strong></p>
    <p role="status">${cutInWords(cut, setting, given, laid, words.pieces.get(cut))}</p>
    <${Marked} cut=${cut} laid=${laid} given=${given} heights=${words.heights} />
    <p class="caution">${[cautions.before_phone, ...cautions.musts, cautions.caution].filter(Boolean).join(' ')}</p>
    <div class="dock next-steps">
      ${plan.made > 0 && html`<button type="button" data-back onClick=${() => go(plan.made - 1)}>Back</button>`}
      <button type="button" class="main" data-next onClick=${() => go(plan.made + 1)}>Done, next</button>
    </div>
  `;
}

// a cut of rows, or of pieces that came of cuts before
function Marked({ cut, laid, given, heights }) {
  const [marked, what, caption] = cut.pieces
    ? [cut.pieces, 'what is to be cut', 'What is cut now is outlined, with its cuts.']
    : [rowsOf(laid, cut.rows), rowsInWords(cut.rows), 'This cut is outlined.'];
  return html`<${LayoutDrawing} laid=${laid} given=${given} heights=${heights} marked=${marked} cut=${cut.pieces && cut}
    title=${`${laid.name} with ${what} marked`} caption=${caption} />`;
}

const rowsOf = (laid, numbers) =>
  numbers.map((number) => laid.rows[number]).map(({ y, height }) => ({ x: 0, y, width: laid.usable_width, length: height }));

function AllCut({ plan, change, of }) {
  const { route } = useLocation();
  const strips = stripsOf(plan);
  const offcuts = offcutsOf(plan.layout);
  const words = useLengths(
    offcuts.flatMap(({ width, length }) => [width, length]),
    'cm',
  );
  const after = useWords(() => askedAfter(plan), []);
  const kept = offcutsKept(plan);
  const keep = (key, on) => change({ kept: on ? [...kept, key] : kept.filter((other) => other !== key) });
  const tick = (id, on) => change({ after: on ? [...plan.after, id] : plan.after.filter((other) => other !== id) });
  const left = !after || after.some(({ id }) => !plan.after.includes(id));
  const undo = (cuts) => saying('Undone: not recorded yet', () => undoCut(plan, cuts, of));
  const record = useOnce(async () => {
    if (await saying('Recorded: the strips wait for a batch', () => recordCut(plan, of), undo)) route('/make');
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
    ${
      offcuts.length > 0 &&
      html`
      <section class="plain">
        <h2>Keep as remnants</h2>
        <ul class="lines">${offcuts.map(
          ({ key, name }, index) => html`
          <li key=${key} data-offcut=${key}>
            <label class="tick"><input type="checkbox" checked=${kept.includes(key)} onChange=${({ target }) => keep(key, target.checked)} />
              <span>${words[2 * index]} × ${words[2 * index + 1]}<small>${name}</small></span></label></li>`,
        )}</ul>
      </section>
    `
    }
    <section class="plain">
      <h2>After the last cut</h2>
      <ul class="lines">${(after || []).map(
        ({ id, text }) => html`
        <li key=${id}><label class="tick"><input type="checkbox" data-after=${id} checked=${plan.after.includes(id)} onChange=${({ target }) => tick(id, target.checked)} />
          <span>${text}</span></label></li>`,
      )}</ul>
    </section>
    <div class="dock next-steps">
      <button type="button" data-back onClick=${() => change({ made: plan.made - 1 })}>Back</button>
      <button type="button" class="main" data-record disabled=${left} onClick=${record}>${left ? 'Tick what comes after' : 'Record the cuts'}</button>
    </div>
  `;
}
