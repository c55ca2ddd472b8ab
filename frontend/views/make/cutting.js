/* What is to be cut: sizes in cloths, from which remnants, and how each cloth lies on the table. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { changed, cutting, heightsInWords, keepCutting, laidCloths, planned, remnantsFor } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed, useRecords } from '../parts/use-records.js';
import { useLengths, useWords } from '../parts/use-words.js';
import { AddWanted, NothingSaved, Wanted } from '../parts/wanted.js';
import { thereAndBack } from '../parts/way-back.js';

export function Cutting() {
  useRecords();
  const { route } = useLocation();
  const [plan, setPlan] = useState(cutting);
  const change = (next) => {
    keepCutting(next);
    setPlan(next);
  };
  const made = useFollowed(() => planned(plan), [JSON.stringify([plan.wanted, plan.leftOut, plan.ways])]);
  if (!records('piece').length || !records('cloth').length) return html`<${NothingSaved} title="Cutting" />`;
  const pieces = plan.wanted.reduce((sum, { quantity }) => sum + quantity, 0);
  return html`
    <h1>Cutting</h1>
    <p class="lead">Say what you want to sew. The layout comes with the proof of how little cloth it takes.</p>
    ${plan.made > 0 && html`<p class="mode" role="status">Its cuts are begun: a change here begins anew.</p>`}
    <div class="beside">
      <div>
        <${Wanted} plan=${plan} change=${change} title="To cut" />
        <${AddWanted} plan=${plan} change=${change} fromList />
      </div>
      <div>
        ${plan.layout && html`<${LaidOut} layout=${plan.layout} />`}
        <${Remnants} plan=${plan} change=${change} />
        ${plan.wanted.length > 0 && html`<${Ways} plan=${plan} made=${made} change=${change} />`}
      </div>
    </div>
    <div class="dock next-steps">
      <button type="button" class="main" data-lay-out disabled=${!pieces} onClick=${() => route('/make/cutting/layout')}>
        ${pieces ? `${plan.layout ? 'See the layout of' : 'Lay out'} ${pieces} strips` : 'Nothing to cut yet'}</button>
    </div>
  `;
}

// the layout of what is planned, beside it where there is room
function LaidOut({ layout }) {
  const words = useWords(
    () => Promise.all(laidCloths(layout).map(async ({ laid, given }) => ({ laid, given, heights: await heightsInWords(laid) }))),
    [],
  );
  return html`
    <div class="make-laid-out">
      ${(words || []).map(
        ({ laid, given, heights }) => html`<${LayoutDrawing} key=${laid.cloth} laid=${laid} given=${given} heights=${heights}
        title=${`The layout on ${laid.name}, to scale`} caption=${laid.name} />`,
      )}
    </div>
  `;
}

function Remnants({ plan, change }) {
  const found = remnantsFor(plan);
  const words = useLengths(
    found.flatMap(({ width, length }) => [width, length]),
    'cm',
  );
  const use = (id, on) => change(changed(plan, { leftOut: on ? plan.leftOut.filter((other) => other !== id) : [...plan.leftOut, id] }));
  return html`
    <section class="plain">
      <h2>From home first</h2>
      ${!found.length && html`<p class="hint">No remnant of these cloths is known.</p>`}
      <ul class="lines">
        ${found.map(
          (remnant, index) => html`
          <li key=${remnant.id} data-remnant=${remnant.id}>
            <label class="tick"><input type="checkbox" checked=${!plan.leftOut.includes(remnant.id)} onChange=${({ target }) => use(remnant.id, target.checked)} />
              <span>${remnant.name}<small>${words[2 * index]} × ${words[2 * index + 1]}, ${nameOf('cloth', recordById('cloth', remnant.cloth))}</small></span></label>
          </li>
        `,
        )}
      </ul>
      <p><a href=${thereAndBack('/settings/remnant/new')}>Measure a remnant</a></p>
      <p><a href="/settings/elastic">Elastic at home</a></p>
    </section>
  `;
}

// how a cloth lies, as its record has it until it is chosen otherwise; there before the core has answered, so
// that nothing moves when it has
function Ways({ plan, made, change }) {
  const cloths = [...new Set(plan.wanted.map((line) => line.cloth))];
  const choose = (cloth, way) => change(changed(plan, { ways: { ...plan.ways, [cloth]: { ...plan.ways[cloth], ...way } } }));
  return html`
    <section class="plain">
      <h2>On the table</h2>
      ${cloths.map((cloth) => html`<${Way} key=${cloth} cloth=${cloth} way=${made && wayOf(made, plan, cloth)} choose=${(way) => choose(cloth, way)} />`)}
    </section>
  `;
}

function wayOf(made, plan, cloth) {
  const rows = made.given.cloths.filter((_, index) => made.cloths[index].cloth === cloth);
  // the bolt comes last; what was just chosen holds before the core has answered
  return { ...rows.at(-1), bolt: true, ...plan.ways[cloth] };
}

function Way({ cloth, way, choose }) {
  const name = nameOf('cloth', recordById('cloth', cloth));
  return html`
    <details class="more">
      <summary>${name}</summary>
      ${way && html`<${Lying} cloth=${cloth} name=${name} way=${way} choose=${choose} />`}
    </details>
  `;
}

function Lying({ cloth, name, way, choose }) {
  const tick = (field, words) => html`
    <label class="tick"><input type="checkbox" name=${`${field}-${cloth}`} checked=${way[field]} onChange=${({ target }) => choose({ [field]: target.checked })} />
      <span>${words}</span></label>`;
  return html`
    <div class="fields">
      <${Choice} id=${`fold-${cloth}`} name="fold" label="Rows are cut" value=${String(way.fold ?? 1)} set=${(fold) => choose({ fold: Number(fold) })}
        choices=${[['1', 'single'], ['2', 'folded once'], ['4', 'folded twice']]} />
      <${Choice} id=${`stretch-${cloth}`} name="stretch" label="It stretches" value=${way.stretch} set=${(stretch) => choose({ stretch })}
        choices=${[['none', 'not much'], ['across', 'most across'], ['along', 'most along']]} />
      <div class="field"><span>Rows stacked for cross cuts</span><${Stepper} name=${`rows of ${name} stacked`} value=${way.layers ?? 1} set=${(layers) => layers > 0 && choose({ layers })} /></div>
    </div>
    ${tick('bolt', 'Also from the bolt, where remnants do not reach')}
    ${tick('nap', 'Pile, nap or stripes: all strips of a size lie one way')}
    ${tick('tear', 'Torn along the yarn, not cut')}
  `;
}
