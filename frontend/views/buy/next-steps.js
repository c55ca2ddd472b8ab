/* The next step with one tap: what was worked out goes along. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { passOn } from '../../data/forms.js';
import { putOnList } from './list-lines.js';
import { STEPS } from './steps.js';

const IN_DOCK = 2;

// what an answer is called on the list; cloths compared have a button each
const LINES = {
  'fabric-per-dozen': ({ input: { quantity }, result: { length_to_buy, cost } }, { cloth, piece }) => (
    { name: cloth?.name ?? 'Cloth', for_what: piece?.name, quantity, length_to_buy, cost }
  ),
  'elastic-cut-length': ({ shown }, { piece }) => (
    { name: 'Elastic', for_what: `${piece?.name ?? ''} ${shown.cut_length} a piece`.trim() }
  ),
};

/** The steps after an answer; the first ones stand in the dock, `rest` shows the others. */
export function NextSteps({ form, rest = false }) {
  const { route } = useLocation();
  const { calculator, picked } = form;
  const go = async (step) => {
    const { input, result } = await form.newest();
    if (!result) return;
    const defaults = Object.fromEntries(calculator.inputs.map((field) => [field.name, field.default]));
    const from = { input: { ...defaults, ...input }, result, cloth: picked.cloth?.name };
    if (step.ahead) await passOn(step.ahead.to, step.ahead.given(from), { picked });
    await passOn(step.to, step.given(from), { rows: step.row ? { cloths: [step.row(from)] } : {}, picked });
    route(`/buy/${step.to}`);
  };
  const toList = async () => {
    const newest = await form.newest();
    if (newest.result && (await putOnList(LINES[calculator.name](newest, picked)))) route('/buy/list');
  };
  const steps = STEPS[calculator.name].map((step) => ({ label: step.label, hook: step.to, take: () => go(step) }));
  if (LINES[calculator.name]) steps.unshift({ label: 'Put on the list', hook: 'list', take: toList });
  const mine = rest ? steps.slice(IN_DOCK) : steps.slice(0, IN_DOCK);
  if (!mine.length) return null;
  return html`
    <div class="next-steps">
      ${mine.map((step, index) => html`
        <button type="button" class=${!rest && index === 0 ? 'main' : ''} disabled=${!form.answer.result}
          data-step=${step.hook} onClick=${step.take}>${step.label}</button>
      `)}
    </div>
  `;
}
