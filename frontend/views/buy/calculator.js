/* The screen of a calculator of Buy: what she saved to start from, the form, the answer, the next step. */
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { CalculatorForm } from '../parts/form.js';
import { MainResults, Results } from '../parts/results.js';
import { useForm } from '../parts/use-form.js';
import { NextSteps } from './next-steps.js';
import { SaveAs, StartFrom } from './saved.js';

/** Make a calculator's screen of its entry in `calculators/`, where all but the name may be left out.
    `name` is the calculator's; which fields a record, a form and a list line share is what their declarations say.
    `starts`: kinds of saved record to start from, `{kind, workedBy, list, again}`: with `workedBy`, what that calculator
    works out of the record is put in, and not its fields; with `list`, it becomes a row of that input; `again` are the groups
    of the form in which what was typed last with the record comes back.
    `saves`: the kind that can be saved from the form, and the word for it, `{kind, word}`.
    `rows`: what a row of a list is called, by the name of the input.
    `drawing`, `beside`, `more`: components given the form: the drawing, what stands beside the form, what stands after it.
    `line`: of the answer and the picked records, what goes on the shopping list; it is the first of the steps.
    `steps`: calculators that come next, `{to, label, workedBy, ahead, row}`: all they can take goes along, with `workedBy` only
    what that calculator works out; `ahead` takes it, too, for later; `row` makes a row of one of its lists, `{list, kind}`. */
export function calculatorScreen({ name, starts = [], saves, rows, drawing: Drawing, beside: Beside, more: More, line, steps = [] }) {
  return function Screen() {
    const calculator = calculatorNamed(name);
    const form = useForm(calculator);
    if (!form) return html`<h1>${calculator.title}</h1>`;
    const next = { form, steps, line };
    return html`
      <h1>${calculator.title}</h1>
      <p class="lead">${calculator.help}</p>
      <${StartFrom} form=${form} starts=${starts} />
      <div class="work">
        <div class="work-seen">
          ${Drawing && html`<div class="drawing-place"><${Drawing} form=${form} /></div>`}
          ${Beside && html`<${Beside} form=${form} />`}
        </div>
        <${CalculatorForm} form=${form} titles=${rows} />
        <div class="buy-work-more">
          ${More && html`<${More} form=${form} />`}
          <${Results} form=${form} />
          <${NextSteps} ...${next} rest />
          ${saves && html`<${SaveAs} form=${form} ...${saves} />`}
        </div>
      </div>
      <div class="dock">
        <${MainResults} form=${form} />
        <${NextSteps} ...${next} />
      </div>
    `;
  };
}
