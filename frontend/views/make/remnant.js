/* What one remnant could give: the dearest mix of strips, drawn, with the proof of how good it is; cut by it as by a layout. */
import { useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { lengthsInWords } from '../../data/calculating.js';
import { nextInWords } from '../../data/cutting.js';
import { countInWords, nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import {
  cutMix,
  findMix,
  foundBefore,
  isBeingCut,
  keepFound,
  keepMixChoices,
  keyOf,
  mixChoices,
  mixOf,
  ofRemnant,
  remnantCutting,
  remnantsAtHome,
  wayOf,
} from '../../data/remnant-mix.js';
import { Choice } from '../parts/choice.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { useOnce } from '../parts/notice.js';
import { useFollowed, useRecords } from '../parts/use-records.js';
import { useSearch } from '../parts/use-search.js';
import { useWords } from '../parts/use-words.js';
import { thereAndBack } from '../parts/way-back.js';
import { cutInWords, lengthsIn } from './cut-words.js';
import { MixSizes } from './mix-sizes.js';
import { MixProof } from './mix-worth.js';

const TITLE = 'What this remnant could give';

export function Remnant() {
  useRecords();
  // a link may say which
  const { query } = useLocation();
  const [choices, setChoices] = useState(() => mixChoices(query.remnant));
  const change = (choose) =>
    setChoices((before) => {
      const next = { ...before, ...choose(before) };
      keepMixChoices(next);
      return next;
    });
  const asked = JSON.stringify(choices);
  const made = useFollowed(async () => ({ asked, remnant: choices.remnant, mix: await mixOf(choices) }), [asked]);
  if (!choices.remnant) return html`<${NoRemnant} />`;
  if (!records('piece').length) return html`<${NoSize} />`;
  return html`
    <h1>${TITLE}</h1>
    <${Which} choices=${choices} change=${change} />
    ${made?.mix && html`<${Mix} made=${made} changing=${made.asked !== asked} choices=${choices} change=${change} />`}
  `;
}

function NoRemnant() {
  return html`
    <h1>${TITLE}</h1>
    <p class="lead">No remnant is saved yet. Measure one and save it; offcuts you keep after cutting are remnants, too.</p>
    <p><a class="button main" href=${thereAndBack('/settings/remnant/new')}>Measure a remnant</a></p>
  `;
}

function NoSize() {
  return html`
    <h1>${TITLE}</h1>
    <p class="lead">A size is needed first: work one out, and save it under a name.</p>
    <p><a class="button main" href="/buy/strip-length">Work out a size</a></p>
  `;
}

function Which({ choices, change }) {
  const { width, length, cloth } = recordById('remnant', choices.remnant);
  const words = useWords(() => lengthsInWords([width, length], 'cm'), [width, length]);
  return html`
    <${Choice} id="mix-remnant" name="remnant" label="Remnant" value=${choices.remnant} set=${(id) => change(() => ofRemnant(id))}
      choices=${remnantsAtHome().map((remnant) => [remnant.id, nameOf('remnant', remnant)])} />
    <p class="hint make-mix-of">${nameOf('cloth', recordById('cloth', cloth))}${words && `, ${words[0]} wide and ${words[1]} long`}</p>
  `;
}

// what was answered of a choice before stays to be seen while another is worked out, and is not cut by
function Mix({ made: { remnant, mix }, changing, choices, change }) {
  const { route } = useLocation();
  const key = keyOf(remnant, mix);
  const { told, problem, stop } = useSearch((show, stopped) => (mix.rows.length ? findMix(remnant, mix, show, stopped) : Promise.resolve()), [key]);
  const current = told?.key === key ? told : foundBefore(remnant, mix);
  const found = useLatest(current, remnant);
  const give = !problem && mix.rows.length > 0 && found;
  const looking = changing || !current?.done;
  const cut = useOnce(async () => {
    await cutMix(current);
    route('/make/remnant/steps');
  });
  return html`
    <div class="work">
      <div class="work-seen">
        ${problem && html`<p class="problem" role="alert">${problem}</p>`}
        ${!mix.rows.length && html`<p class="lead" role="status" data-nothing>${nothingInWords(mix)}</p>`}
        ${give && html`<${Found} found=${found} looking=${looking} stop=${looking && !changing && current && current === told ? () => keepFound(stop()) : null} />`}
      </div>
      <form onSubmit=${(event) => event.preventDefault()} autocomplete="off">
        <${MixSizes} mix=${mix} choices=${choices} change=${change} />
      </form>
    </div>
    <${Begun} found=${found} />
    <div class="dock next-steps">
      <button type="button" class="main" data-cut disabled=${changing || !current || !isToCut(give)} onClick=${cut}>${isToCut(give) ? nextOf(found) : 'Nothing to cut yet'}</button>
    </div>
  `;
}

const isToCut = (found) => Boolean(found) && found.laid.rows.length > 0;

// the latest stays until another is there, so that nothing jumps
function useLatest(found, remnant) {
  const latest = useRef(null);
  if (found) latest.current = found;
  return latest.current?.remnant === remnant ? latest.current : null;
}

function nothingInWords({ sizes, measure }) {
  if (!sizes.some(({ chosen }) => chosen)) return 'Tick a size that may be cut.';
  if (measure === 'money' && !sizes.some(({ chosen, worth }) => chosen && worth)) return 'Say below what one of a size is worth.';
  return 'Nothing is still wanted of this cloth: strips that wait are enough.';
}

const nextOf = (found) => (isBeingCut(found) ? nextInWords(remnantCutting()) : `Cut this: ${countInWords(found.laid.cuts.length, 'cut')}`);

// of another remnant, or of this one before something was chosen otherwise
function Begun({ found }) {
  const { layout, made } = remnantCutting();
  if (!layout || !made || (found && isBeingCut(found))) return null;
  return html`<p class="mode" role="status">Cuts of ${layout.result.cloths[0].name} are begun: to cut this ends them. <a href="/make/remnant/steps">Go on with them</a></p>`;
}

function Found({ found, looking, stop }) {
  const key = JSON.stringify(found.laid);
  const words = useWords(async () => ({ key, of: found, ...(await lengthsIn(found.laid)) }), [key]);
  const { result, mix } = found;
  return html`
    <${MixProof} result=${result} mix=${mix} looking=${looking} stop=${stop} />
    ${words && words.laid.rows.length > 0 && html`<${Laid} words=${words} found=${words.of} isLatest=${words.key === key} />`}
  `;
}

function Laid({ words, found, isLatest }) {
  const { laid } = words;
  const way = wayOf(found);
  const pieces = laid.rows.reduce((sum, row) => sum + row.strips.length, 0);
  return html`
    <section class="make-laid" data-latest=${isLatest}>
      <${LayoutDrawing} laid=${laid} given=${way} heights=${words.heights} title=${`${pieces} strips on ${laid.name}, to scale`}
        caption=${`The remnant's length lies to the right.${way.nap ? ' The arrows are the way the nap lies.' : ''}`} />
      <ul class="cuts">${words.strips.map(({ name, quantity, size }) => html`<li data-strips=${quantity}>${quantity} × ${name}, ${size}</li>`)}</ul>
      <details class="more">
        <summary>The ${countInWords(laid.cuts.length, 'cut')}</summary>
        <ol class="cuts">${laid.cuts.map((cut, index) => html`<li>${cutInWords(cut, words.settings[index], way, laid, words.pieces.get(cut))}</li>`)}</ol>
      </details>
    </section>
  `;
}
