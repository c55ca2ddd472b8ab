/* Which cloth for the whole plan: all of it in each cloth, laid out, the best to buy first. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { compareCloths, inCloth } from '../../data/buying.js';
import { lengthsInWords } from '../../data/calculating.js';
import { cutting, keepCutting, measuredCloths } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { useSearch } from '../parts/use-search.js';
import { useWords } from '../parts/use-words.js';

export function ComparePlan() {
  const [plan] = useState(cutting);
  const { told, problem } = useSearch((show, stopped) => compareCloths(plan, show, stopped), []);
  const ranking = told ?? [];
  const words = useWords(
    () =>
      lengthsInWords(
        ranking.map(({ result }) => result.length_to_buy),
        'm',
      ),
    [JSON.stringify(ranking.map(({ cloth }) => cloth))],
  );
  const cloths = measuredCloths().length;
  if (!plan.wanted.length) return html`<h1>Compare cloths</h1><p class="lead">Nothing is planned yet. <a href="/buy/plan">Say what to sew</a></p>`;
  if (problem) return html`<h1>Compare cloths</h1><p class="problem" role="alert">${problem}</p>`;
  return html`
    <h1>Compare cloths</h1>
    <p class="lead" role="status" data-compared=${ranking.length}>${ranking.length < cloths ? `Laid out in ${ranking.length} of ${cloths} cloths …` : 'All of the plan in one cloth, the best to buy first.'}</p>
    <ol class="lines">
      ${ranking.map((row, index) => html`<${Ranked} key=${row.cloth} row=${row} plan=${plan} length=${words[index]} />`)}
    </ol>
    <div class="dock next-steps"><a class="button" href="/buy/plan">Back to the plan</a></div>
  `;
}

function Ranked({ row: { cloth, result }, plan, length }) {
  const { route } = useLocation();
  const name = nameOf('cloth', recordById('cloth', cloth));
  const take = async () => {
    await keepCutting(inCloth(plan, cloth));
    route('/buy/plan');
  };
  const missing = result.unplaced.reduce((sum, { quantity }) => sum + quantity, 0);
  return html`
    <li data-ranked=${name} data-cost=${result.cost}>
      <span><strong>${name}</strong> <strong class="number">${result.cost === null ? 'no price' : showMoney(result.cost)}</strong>
        <small>${missing ? `${missing} strips do not fit` : `ask for ${length ?? '…'}`}${result.optimal_to_buy ? '' : ', less may do'}</small></span>
      <button type="button" onClick=${take} aria-label=${`Plan all in ${name}`}>Take</button>
    </li>
  `;
}
