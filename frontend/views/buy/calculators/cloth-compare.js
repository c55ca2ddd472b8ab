/* Which cloth gives the cheaper piece: saved cloths beside each other, the best on the list with one tap. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { mayAdd, recordById } from '../../../data/records.js';
import { showMoney } from '../../parts/money.js';
import { useOnce } from '../../parts/notice.js';
import { valueText } from '../../parts/results.js';
import { calculatorScreen } from '../calculator.js';
import { putOnList } from '../list-lines.js';

export const Screen = calculatorScreen({
  name: 'cloth-compare',
  starts: [
    { kind: 'piece', workedBy: 'strip-length', again: ['The pieces'] },
    { kind: 'cloth', list: 'cloths' },
  ],
  rows: { cloths: 'cloth' },
  beside: Ranking,
});

/** Cloths, cheapest each first, with bars to compare by eye. */
function Ranking({ form }) {
  const { route } = useLocation();
  const { result, shown, input } = form.answer;
  const toList = useOnce(async (ranked) => {
    const saved = { piece: form.picked.piece, cloth: savedCloth(form.typed.cloths[ranked.row], ranked) };
    if (await putOnList({ ...input, ...ranked }, saved)) route('/buy/list');
  });
  if (!result) return null;
  const most = Math.max(...result.ranking.map((ranked) => ranked.cost_each), 1);
  return html`
    <ol class="buy-ranking" data-output="ranking" data-value=${valueText(result.ranking)}>
      ${result.ranking.map(
        (ranked, index) => html`
        <li key=${ranked.row}>
          <div class="buy-ranked-head">
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
          ${mayAdd('list-line') && html`<button type="button" onClick=${() => toList(ranked)}>Put on the list</button>`}
        </li>
      `,
      )}
    </ol>
  `;
}

// a row that goes by another name by now is no longer that cloth
function savedCloth(row, { name }) {
  const cloth = row && recordById('cloth', row.record);
  return cloth?.name === name ? cloth : undefined;
}
