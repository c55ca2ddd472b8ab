/* How good a layout is, in words. */
import { html } from 'htm/preact';

// rounded up, so that what is said holds
const percent = (share) => `${(Math.ceil(share * 10) / 10).toLocaleString()} %`;

/** What is proven of a layout that a search has told of; stopping it keeps the best so far. */
export function Proof({ layout: { given, result, done }, stop }) {
  const looking = !done;
  // with stacks the bound is one on layouts of any cuts
  const layout = given.stages === 3 ? 'layout' : 'layout of rows and cross cuts';
  const proven = result.optimal ? `Proven: no ${layout} takes less cloth.`
    : result.optimal_to_buy ? `Proven: in the steps the shop sells, no ${layout} needs less.`
      : `No ${layout} takes more than ${percent(result.gap)} less cloth.`;
  return html`
    <section class="verdict" role="status" data-proven=${result.optimal} data-gap=${result.gap} data-looking=${looking}>
      <p>${proven}</p>
      <p class="hint">${percent(result.waste)} of the cloth used is waste. The ruler is set ${result.settings} ${result.settings === 1 ? 'time' : 'times'}.</p>
      ${looking && html`<p class="no-print">Looking for a better one … <button type="button" data-stop onClick=${stop}>Stop, keep this</button></p>`}
    </section>
  `;
}

/** What is not in a layout: strips that no cloth is left for, remnants that are too many at once. */
export function Missing({ layout: { result: { unplaced }, left_out: leftOut } }) {
  return html`
    ${unplaced.length > 0 && html`<p class="problem" role="alert" data-unplaced>No cloth is left for ${unplaced.map(({ quantity, name }) => `${quantity} × ${name}`).join(', ')}.</p>`}
    ${leftOut.length > 0 && html`<p class="hint" data-left-out=${leftOut.length}>More remnants than can be planned at once: the smallest ${leftOut.length} are not in it.</p>`}
  `;
}
