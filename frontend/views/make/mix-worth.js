/* What a mix is worth and how good it is, in words. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { showMoney } from '../parts/money.js';

// a share is rounded so that what is said of it holds
const percent = (share, round) => `${(round(share * 10) / 10).toLocaleString()} %`;

/** What strips are worth together. */
export function worthInWords(value, { measure, given }, round = Math.floor) {
  if (measure === 'money') return showMoney(round(value));
  return measure === 'strips' ? countInWords(round(value), 'strip') : percent((100 * value) / (given.width * given.length), round);
}

const NO_OTHER = { money: 'is worth more', area: 'uses more of the remnant', strips: 'gives more strips' };
const AT_MOST = { money: 'more could be found', area: 'more of the remnant could be used', strips: 'more could be found' };
const KINDS = { 2: ' of rows and cross cuts', 3: ' whose cuts change direction twice', any: '' };

/** What is proven of a mix; `stop`, where it can be stopped, keeps the best so far. */
export function MixProof({ result, mix, looking, stop }) {
  const { measure } = mix;
  if (result.optimal && !result.pieces) return html`<p class="lead" role="status" data-proven="true">No strip of these sizes fits this remnant.</p>`;
  const proof = result.optimal
    ? `Proven: no other mix${KINDS[mix.given.stages]} ${NO_OTHER[measure]}.`
    : `At most ${worthInWords(result.bound - result.value, mix, Math.ceil)} ${AT_MOST[measure]}.`;
  return html`
    <section class="verdict" role="status" data-measure=${measure} data-proven=${result.optimal} data-worth=${result.value} data-bound=${result.bound} data-looking=${looking}>
      <p class="make-mix-worth"><span>${inStrips(result, measure)}</span> <strong class="number">${worthInWords(result.value, mix)}</strong></p>
      <p>${proof}</p>
      <p class="hint">${percent(result.waste, Math.ceil)} of the remnant is left over.</p>
      ${stop && html`<p class="no-print">Looking for a better one … <button type="button" data-stop onClick=${stop}>Stop, keep this</button></p>`}
    </section>
  `;
}

const inStrips = ({ pieces }, measure) =>
  measure === 'strips' ? 'It gives' : measure === 'money' ? `${countInWords(pieces, 'strip')}, worth` : `${countInWords(pieces, 'strip')}, in all`;

/** What the worth of one is made of, as far as it is known. */
export function madeOf({ measure, sizes }) {
  if (measure === 'strips') return 'Every strip counts alike.';
  if (measure === 'area') return 'A strip is worth its area: as much cloth as can be is used.';
  const priced = sizes.filter(({ chosen, price }) => chosen && price !== null);
  if (!priced.length) return 'One is worth what you say.';
  const counted = priced.filter((size) => size.elastic_cost !== null).length;
  const elastic = counted === priced.length ? ' less its elastic' : counted ? ' less its elastic, where that is known' : '';
  const without = counted ? 'Thread' : 'Elastic, thread';
  return `One is worth its price${elastic}, or what you say. ${without}, packaging and time are not counted.`;
}
