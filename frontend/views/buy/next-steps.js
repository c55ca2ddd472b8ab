/* The next step with one tap: what was worked out goes along. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { calculatorNamed, defaultsOf, valuesFor } from '../../data/calculating.js';
import { passOn } from '../../data/forms.js';
import { mayAdd } from '../../data/records.js';
import { useOnce } from '../parts/notice.js';
import { putOnList } from './list-lines.js';

const IN_DOCK = 2;

/** The steps after an answer; the first ones stand in the dock, `rest` shows the others. */
export function NextSteps({ form, steps, line, rest = false }) {
  const { route } = useLocation();
  const { calculator, picked } = form;
  const go = async (step) => {
    const { input, result } = await form.newest();
    if (!result) return;
    // of the same name, what was given goes before what came out
    const known = { ...result, ...defaultsOf(calculator), ...input };
    const along = step.workedBy ? valuesFor(calculatorNamed(step.workedBy).outputs, known) : known;
    if (step.ahead) await passOn(step.ahead, valuesFor(calculatorNamed(step.ahead).inputs, along), { picked });
    const { inputs } = calculatorNamed(step.to);
    await passOn(step.to, valuesFor(inputs, along), { rows: step.row ? rowOf(step.row, inputs, known, picked) : {}, picked });
    route(`/buy/${step.to}`);
  };
  const toList = useOnce(async () => {
    const newest = await form.newest();
    if (newest.result && (await putOnList(line(newest, picked), picked))) route('/buy/list');
  });
  const ways = steps.map((step) => ({ label: step.label, hook: step.to, take: () => go(step) }));
  if (line && mayAdd('list-line')) ways.unshift({ label: 'Put on the list', hook: 'list', take: toList });
  const mine = rest ? ways.slice(IN_DOCK) : ways.slice(0, IN_DOCK);
  if (!mine.length) return null;
  return html`
    <div class="next-steps">
      ${mine.map(
        (way, index) => html`
        <button type="button" class=${!rest && index === 0 ? 'main' : ''} disabled=${!form.answer.result}
          data-step=${way.hook} onClick=${way.take}>${way.label}</button>
      `,
      )}
    </div>
  `;
}

// called as the saved record that it came from
function rowOf({ list, kind }, inputs, known, { [kind]: saved }) {
  const { fields } = inputs.find((field) => field.name === list);
  return { [list]: [{ ...valuesFor(fields, known), id: saved?.id, name: saved?.name ?? '' }] };
}
