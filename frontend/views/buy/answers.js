/* The parts of an answer that are lists: fits of a width, and cloths in order. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { passOn } from '../../data/forms.js';
import { showMoney } from '../parts/money.js';
import { valueText } from '../parts/results.js';
import { putOnList } from './list-lines.js';

/** Strip lengths that fill a width; one tap takes one. */
export function Fits({ form }) {
  const { route } = useLocation();
  const { result, shown } = form.answer;
  if (!result || !result.fits.length) return html`<div hidden data-output="fits" data-value="[]"></div>`;
  const best = result.best_fit;
  const take = async (fit) => {
    const given = { strip_length: fit.strip_length, strip_width: result.strip_width };
    await passOn('fabric-per-dozen', given, { picked: form.picked });
    route('/buy/fabric-per-dozen');
  };
  return html`
    <section class="plain">
      <h2>Strips that waste no width</h2>
      <div hidden data-output="best_fit" data-value=${valueText(best)}></div>
      <ul class="lines" data-output="fits" data-value=${valueText(result.fits)}>
        ${result.fits.map((fit, index) => html`
          <li key=${fit.per_row}>
            <span><strong>${shown.fits[index].strip_length}</strong>
              ${` gives ${fit.per_row} across, fullness ${shown.fits[index].fullness}${fit.per_row === best.per_row ? ' (nearest)' : ''}`}</span>
            <button type="button" onClick=${() => take(fit)}>Cloth to buy</button>
          </li>
        `)}
      </ul>
    </section>
  `;
}

/** Cloths, cheapest each first, with bars to compare by eye. */
export function Ranking({ form }) {
  const { route } = useLocation();
  const { result, shown } = form.answer;
  if (!result) return null;
  const toList = async (ranked) => {
    const { quantity } = form.answer.input;
    if (await putOnList({ ...ranked, quantity, for_what: form.picked.piece?.name })) route('/buy/list');
  };
  const most = Math.max(...result.ranking.map((ranked) => ranked.cost_each), 1);
  return html`
    <ol class="ranking" data-output="ranking" data-value=${valueText(result.ranking)}>
      ${result.ranking.map((ranked, index) => html`
        <li key=${ranked.row}>
          <div class="ranked-head">
            <strong>${ranked.name}</strong>
            <span class="number" data-output=${`ranking.${index}.cost_each`} data-value=${ranked.cost_each}>
              ${showMoney(ranked.cost_each, 'money_each')} each
            </span>
          </div>
          <svg class="bar" viewBox="0 0 100 4" preserveAspectRatio="none" aria-hidden="true">
            <rect width=${(100 * ranked.cost_each) / most} height="4" />
          </svg>
          <p>Ask for <strong>${shown.ranking[index].length_to_buy}</strong> for ${showMoney(ranked.cost)}.
            ${` It gives ${ranked.pieces_from_bought} pieces, ${showMoney(ranked.cost_each_if_all_sewn, 'money_each')} each if all are sewn.`}</p>
          <button type="button" onClick=${() => toList(ranked)}>Put on the list</button>
        </li>
      `)}
    </ol>
  `;
}
