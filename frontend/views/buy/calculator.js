/* One calculator of Buy: what she saved to start from, the form, the answer, the next step. */
import { html } from 'htm/preact';
import { calculatorNamed } from '../../data/calculating.js';
import { CalculatorForm } from '../parts/form.js';
import { MainResults, Results } from '../parts/results.js';
import { useForm } from '../parts/use-form.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Fits, Ranking } from './answers.js';
import { RemnantDrawing, RowsDrawing } from './cloth-drawing.js';
import { NextSteps } from './next-steps.js';
import { SaveAs, StartFrom } from './saved.js';
import { STEPS } from './steps.js';
import { StripDrawing } from './strip-drawing.js';

const DRAWINGS = {
  'strip-length': StripDrawing,
  'fabric-per-dozen': RowsDrawing,
  'remnant-yield': RemnantDrawing,
};

export function BuyCalculator({ calculator: name }) {
  if (!STEPS[name]) return html`<${NoSuchScreen} />`;
  return html`<${Screen} key=${name} calculator=${calculatorNamed(name)} />`;
}

function Screen({ calculator }) {
  const form = useForm(calculator);
  const Drawing = DRAWINGS[calculator.name];
  if (!form) return html`<h1>${calculator.title}</h1>`;
  return html`
    <h1>${calculator.title}</h1>
    <p class="lead">${calculator.help}</p>
    <${StartFrom} form=${form} />
    <div class="work">
      <div class="work-seen">
        ${Drawing && html`<div class="drawing-place"><${Drawing} form=${form} /></div>`}
        ${calculator.name === 'cloth-compare' && html`<${Ranking} form=${form} />`}
      </div>
      <${CalculatorForm} form=${form} titles=${{ cloths: 'cloth', samples: 'test knot' }} />
      <div class="work-more">
        ${calculator.name === 'strip-length' && html`<${Fits} form=${form} />`}
        <${Results} form=${form} />
        <${NextSteps} form=${form} rest />
        <${SaveAs} form=${form} />
      </div>
    </div>
    <div class="dock">
      <${MainResults} form=${form} />
      <${NextSteps} form=${form} />
    </div>
  `;
}
