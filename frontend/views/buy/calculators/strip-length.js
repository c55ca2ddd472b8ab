/* The strip of one piece: from a saved size, on to its cloth, its elastic or a remnant. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { calculatorNamed, valuesFor } from '../../../data/calculating.js';
import { passOn } from '../../../data/forms.js';
import { valueText } from '../../parts/results.js';
import { calculatorScreen } from '../calculator.js';
import { StripDrawing } from '../strip-drawing.js';

export const Screen = calculatorScreen({
  name: 'strip-length',
  starts: [{ kind: 'piece', again: ['Stretch', 'To fit a cloth'] }],
  saves: { kind: 'piece', word: 'size' },
  drawing: StripDrawing,
  more: Fits,
  steps: [
    { to: 'fabric-per-dozen', label: 'Cloth to buy' },
    { to: 'elastic-cut-length', label: 'Elastic for it', ahead: 'fabric-per-dozen' },
    { to: 'remnant-yield', label: 'From a remnant' },
  ],
});

/** Strip lengths that fill a width; one tap takes one. */
function Fits({ form }) {
  const { route } = useLocation();
  const { result, shown } = form.answer;
  if (!result?.fits.length) return html`<div hidden data-output="fits" data-value="[]"></div>`;
  const best = result.best_fit;
  const take = async (fit) => {
    const { inputs } = calculatorNamed('fabric-per-dozen');
    await passOn('fabric-per-dozen', valuesFor(inputs, { ...result, ...fit }), { picked: form.picked });
    route('/buy/fabric-per-dozen');
  };
  return html`
    <section class="plain">
      <h2>Strips that waste no width</h2>
      <div hidden data-output="best_fit" data-value=${valueText(best)}></div>
      <ul class="lines" data-output="fits" data-value=${valueText(result.fits)}>
        ${result.fits.map(
          (fit, index) => html`
          <li key=${fit.per_row}>
            <span><strong>${shown.fits[index].strip_length}</strong>
              ${` gives ${fit.per_row} across, fullness ${shown.fits[index].fullness}${fit.per_row === best.per_row ? ' (nearest)' : ''}`}</span>
            <button type="button" onClick=${() => take(fit)}>Cloth to buy</button>
          </li>
        `,
        )}
      </ul>
    </section>
  `;
}
