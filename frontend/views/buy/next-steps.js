/* The next step with one tap: what was worked out goes along. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { passOn } from '../../data/forms.js';
import { putOnList } from './list-lines.js';
import { STEPS } from './steps.js';

export function NextSteps({ form }) {
  const { route } = useLocation();
  const { input, result, shown } = form.answer;
  const { calculator, picked } = form;
  const defaults = Object.fromEntries(calculator.inputs.map((field) => [field.name, field.default]));
  const go = async (step) => {
    const from = { input: { ...defaults, ...input }, result, cloth: picked.cloth?.name };
    await passOn(step.to, step.given(from), { rows: step.row ? { cloths: [step.row(from)] } : {}, picked });
    route(`/buy/${step.to}`);
  };
  const toList = async () => {
    if (await putOnList(listLine(calculator.name, form, shown))) route('/buy/list');
  };
  return html`
    <div class="next-steps">
      ${listLine(calculator.name, form, shown) && html`
        <button type="button" class="main" disabled=${!result} onClick=${toList}>Put on the list</button>`}
      ${STEPS[calculator.name].map((step, index) => html`
        <button type="button" class=${index === 0 && calculator.name !== 'fabric-per-dozen' ? 'main' : ''}
          disabled=${!result} data-step=${step.to} onClick=${() => go(step)}>${step.label}</button>
      `)}
    </div>
  `;
}

// what each answer is called on the list; cloths compared have a button each
function listLine(name, { answer: { input, result }, picked }, shown) {
  const piece = picked.piece?.name ?? '';
  if (name === 'fabric-per-dozen') {
    const { length_to_buy, cost } = result ?? {};
    return { name: picked.cloth?.name ?? 'Cloth', for_what: piece, quantity: input.quantity, length_to_buy, cost };
  }
  if (name === 'elastic-cut-length') {
    return { name: 'Elastic', for_what: `${piece} ${shown.cut_length ?? ''} a piece`.trim() };
  }
  return null;
}
