/* The elastic of a plan: where to set the stop of the cutting board for each length, roll by roll. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { elasticsOf, knowsElastic, rollsInWords, sizesWithout } from '../../data/elastic.js';
import { useWords } from './use-words.js';
import { thereAndBack } from './way-back.js';

/** Each elastic with its rolls, and what is not known of it. */
export function ElasticCuts({ plan }) {
  return html`
    ${elasticsOf(plan).map((one) => html`<${Cuts} key=${one.elastic.id} one=${one} />`)}
    <${Unknown} plan=${plan} />
  `;
}

function Cuts({ one: { elastic, estimated, rolls } }) {
  const told = useWords(() => rollsInWords(rolls), [JSON.stringify(rolls)]);
  if (!told) return null;
  return html`
    <section class="elastic" data-elastic=${elastic.name}>
      <h2>${elastic.name}</h2>
      ${told.map(
        ({ words, ...roll }) => html`
        <p>${rollInWords(roll)}, <span class="number">${words.length}</span>${roll.times > 1 ? ' each' : ''}:</p>
        <ol class="cuts">${roll.stops.map(
          ({ length, count, sizes }, at) => html`
          <li data-stop-at=${length} data-count=${count}>Stop at <strong class="number">${words.stops[at]}</strong>: ${countInWords(count, 'piece')}, ${sizes.join(', ')}</li>`,
        )}</ol>
        <p class="hint">${words.left} left${roll.times > 1 ? ' of each' : ''}.</p>
      `,
      )}
      ${estimated && html`<p class="hint no-print" data-estimated>Its knot is estimated: tie and measure three, and put in <a href=${thereAndBack(`/settings/elastic/${elastic.id}`)}>what it takes up</a>.</p>`}
    </section>
  `;
}

const rollInWords = ({ roll, times }) =>
  ({
    opened: 'The opened roll',
    whole: times === 1 ? 'A whole roll' : `${times} whole rolls`,
    new: times === 1 ? 'A new roll' : `${times} new rolls`,
  })[roll];

function Unknown({ plan }) {
  const without = sizesWithout(plan);
  if (!without.length) return null;
  return html`<p class="hint no-print" data-no-elastic>${
    knowsElastic()
      ? html`Which elastic is in ${without.join(', ')}? Say so with <a href="/settings/piece">its size</a>.`
      : html`No elastic is known yet. <a href=${thereAndBack('/settings/elastic/new')}>Put in yours</a>`
  }</p>`;
}
