/* The next step with one tap: what was worked out goes along. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { passOn } from '../../data/forms.js';
import { putOnList } from './list-lines.js';
import { STEPS } from './steps.js';

const IN_DOCK = 2;

/** The steps after an answer; the first ones stand in the dock, `rest` shows the others. */
export function NextSteps({ form, rest = false }) {
  const { route } = useLocation();
  const { input, result, shown } = form.answer;
  const { calculator, picked } = form;
  const go = async (step) => {
    const defaults = Object.fromEntries(calculator.inputs.map((field) => [field.name, field.default]));
    const from = { input: { ...defaults, ...input }, result, cloth: picked.cloth?.name };
    if (step.ahead) await passOn(step.ahead.to, step.ahead.given(from), { picked });
    await passOn(step.to, step.given(from), { rows: step.row ? { cloths: [step.row(from)] } : {}, picked });
    route(`/buy/${step.to}`);
  };
  const line = listLine(calculator.name, form, shown);
  const toList = async () => {
    if (await putOnList(line)) route('/buy/list');
  };
  const steps = STEPS[calculator.name].map((step) => ({ label: step.label, hook: step.to, take: () => go(step) }));
  if (line) steps.unshift({ label: 'Put on the list', hook: 'list', take: toList });
  const mine = rest ? steps.slice(IN_DOCK) : steps.slice(0, IN_DOCK);
  if (!mine.length) return null;
  return html`
    <div class="next-steps">
      ${mine.map((step, index) => html`
        <button type="button" class=${!rest && index === 0 ? 'main' : ''} disabled=${!result}
          data-step=${step.hook} onClick=${step.take}>${step.label}</button>
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
