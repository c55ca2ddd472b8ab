/* How good a layout is, in words. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';

// rounded up, so that what is said holds
const percent = (share) => `${(Math.ceil(share * 10) / 10).toLocaleString()} %`;

/** What is proven, in words: of several bolts what is paid for them, else the cloth that is taken. */
function proven({ given: { stages }, result }) {
  // with stacks the bound is one on layouts of any cuts
  const layout = stages === 3 ? 'layout' : 'layout of rows and cross cuts';
  const several = result.cloths.filter(({ length_needed: needed }) => needed !== null).length > 1;
  if (several) {
    // kept by an older version, which proved less than it said of several bolts
    if (result.gap_to_buy === undefined) return 'Lay it out again to see how near to the least this is.';
    const less = result.cost === null ? 'has less to buy' : 'costs less';
    return result.optimal_to_buy
      ? `Proven: in the steps the shop sells, no ${layout} ${less}.`
      : `In the steps the shop sells, no ${layout} ${less} by more than ${percent(result.gap_to_buy)}.`;
  }
  if (result.optimal) return `Proven: no ${layout} takes less cloth.`;
  return result.optimal_to_buy
    ? `Proven: in the steps the shop sells, no ${layout} needs less.`
    : `No ${layout} takes more than ${percent(result.gap)} less cloth.`;
}

/** What is proven of a layout that a search has told of; stopping it keeps the best so far. */
export function Proof({ layout, stop }) {
  const { result, done } = layout;
  const looking = !done;
  return html`
    <section class="verdict" role="status" data-proven=${result.optimal} data-gap=${result.gap} data-looking=${looking}>
      <p>${proven(layout)}</p>
      <p class="hint">${percent(result.waste)} of the cloth used is waste. The ruler is set ${countInWords(result.settings, 'time')}.</p>
      ${looking && html`<p class="no-print">Looking for a better one … <button type="button" data-stop onClick=${stop}>Stop, keep this</button></p>`}
    </section>
  `;
}

/** What is not in a layout: strips that no cloth is left for, remnants that are too many at once. */
export function Missing({
  layout: {
    result: { unplaced },
    left_out: leftOut,
  },
}) {
  return html`
    ${unplaced.length > 0 && html`<p class="problem" role="alert" data-unplaced>No cloth is left for ${unplaced.map(({ quantity, name }) => `${quantity} × ${name}`).join(', ')}.</p>`}
    ${leftOut.length > 0 && html`<p class="hint" data-left-out=${leftOut.length}>More remnants than can be planned at once: the smallest ${leftOut.length} are not in it.</p>`}
  `;
}
