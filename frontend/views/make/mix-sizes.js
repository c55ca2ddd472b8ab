/* What may be cut from a remnant: which sizes, what one is worth, how many at most, and how they lie. */
import { useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { lengthsInWords } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';
import { readWorth } from '../../data/remnant-mix.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { Stepper } from '../parts/stepper.js';
import { useWords } from '../parts/use-words.js';
import { madeOf } from './mix-worth.js';

const MEASURES = [
  ['money', 'Money'],
  ['area', 'Cloth used'],
  ['strips', 'Number of strips'],
];
const MANY = [
  ['fit', 'As many as fit'],
  ['wanted', 'Still wanted'],
  ['typed', 'What I say'],
];
const LYING = [
  ['either', 'Both ways'],
  ['across', 'Across the cloth'],
  ['along', 'Along the cloth'],
];
const STAGES = [
  ['any', 'Freely'],
  ['3', 'Twice'],
  ['2', 'Once'],
];

export function MixSizes({ mix, choices, change }) {
  const sides = useWords(
    () =>
      lengthsInWords(
        mix.sizes.flatMap(({ length, width }) => [length, width]),
        'mm',
      ),
    [JSON.stringify(mix.sizes.map(({ length, width }) => [length, width]))],
  );
  return html`
    <section class="plain mix-sizes">
      <h2>Sizes that may be cut</h2>
      <p class="hint">${madeOf(mix)}</p>
      <ul class="lines">
        ${mix.sizes.map((size, index) => html`<${Size} key=${size.size} size=${size} mix=${mix} choices=${choices} change=${change} sides=${sides && `${sides[2 * index]} × ${sides[2 * index + 1]}`} />`)}
      </ul>
    </section>
    <section class="plain">
      <h2>What counts</h2>
      <div class="fields">
        <${Choice} id="mix-many" name="many" label="How many" value=${choices.many ?? mix.many} set=${(many) => change(() => ({ many }))} choices=${MANY} />
        <${Choice} id="mix-measure" name="measure" label="Get the most" value=${choices.measure ?? mix.measure} set=${(measure) => change(() => ({ measure }))} choices=${MEASURES} />
        <${Choice} id="mix-lying" name="lying" label="Strips lie" value=${choices.lying ?? mix.lying} set=${(lying) => change(() => ({ lying }))} choices=${LYING} />
        <${Choice} id="mix-stages" name="stages" label="Cuts change direction" value=${choices.stages} set=${(stages) => change(() => ({ stages }))} choices=${STAGES} />
      </div>
      ${mix.nap && html`<p class="hint">Its pile, nap or stripes have strips lie one way.</p>`}
    </section>
  `;
}

function Size({ size, mix, choices, change, sides }) {
  const { size: id, name } = size;
  // what is tapped is seen before the core has answered
  const chosen = !choices.leftOut.includes(id);
  const cut = (on) => change(({ leftOut }) => ({ leftOut: on ? leftOut.filter((other) => other !== id) : [...leftOut, id] }));
  const limit = (quantity) => change(({ quantities }) => ({ quantities: { ...quantities, [id]: quantity } }));
  return html`
    <li data-size=${name} data-worth=${size.worth}>
      <label class="tick"><input type="checkbox" checked=${chosen} onChange=${({ target }) => cut(target.checked)} />
        <span>${name}<small>${sides}</small>${mix.measure === 'money' && html`<small>${madeOfOne(size)}</small>`}${mix.many === 'wanted' && html`<small>${wantedInWords(size)}</small>`}</span></label>
      ${chosen && mix.measure === 'money' && html`<${Worth} size=${size} choices=${choices} change=${change} />`}
      ${chosen && mix.many === 'typed' && html`<span class="make-mix-most"><span aria-hidden="true">at most</span> <${Stepper} name=${`${name} at most`} value=${choices.quantities[id] ?? null} set=${limit} /></span>`}
    </li>
  `;
}

function madeOfOne({ price, elastic_cost: elastic }) {
  if (price === null) return 'no price is saved';
  return elastic === null ? `price ${showMoney(price)}` : `${showMoney(price)} less ${showMoney(elastic)} elastic`;
}

const wantedInWords = ({ wanted, waiting, quantity }) =>
  waiting ? `${wanted} planned, ${waiting} waiting: at most ${quantity}` : `at most ${quantity}, as planned`;

// empty for what follows from its price
function Worth({ size: { size: id, name, price, elastic_cost: elastic }, choices, change }) {
  const typed = choices.worths[id];
  const [text, setText] = useState(typed?.text ?? '');
  const latest = useRef(text);
  const type = async ({ target: { value } }) => {
    latest.current = value;
    setText(value);
    const worth = await readWorth(value);
    // a slower answer to what was typed before does not count
    if (latest.current !== value) return;
    change(({ worths: { [id]: before, ...others } }) => ({ worths: worth ? { ...others, [id]: worth } : others }));
  };
  const own = price === null ? '' : showMoney(Math.max(0, price - (elastic ?? 0)));
  return html`
    <div class="field make-mix-one">
      <label for=${`worth-${id}`}>Worth of one</label>
      <span class="control"><input id=${`worth-${id}`} name="worth" aria-label=${`Worth of one ${name}`} inputmode="decimal" value=${text} placeholder=${own} onInput=${type}
          aria-invalid=${typed?.problem ? 'true' : undefined} aria-describedby=${typed?.problem ? `worth-${id}-problem` : undefined} />
        <span class="unit" aria-hidden="true">${currency()}</span></span>
      ${typed?.problem && html`<p class="problem" id=${`worth-${id}-problem`}>${typed.problem}</p>`}
    </div>
  `;
}
