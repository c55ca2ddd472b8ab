/* What is planned to be sewn: the same plan in Buy and in Make. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { changed, unmeasured, wantedOnList, withWanted } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { Choice } from './choice.js';
import { Stepper } from './stepper.js';
import { thereAndBack } from './way-back.js';

const DOZEN = 12;

/** Where no size or no cloth is saved yet. */
export function NothingSaved({ title }) {
  return html`
    <h1>${title}</h1>
    <p class="lead">A size and a cloth are needed first: work them out once, and save them under a name.</p>
    <p><a class="button main" href="/buy/strip-length">Work out a size</a></p>
    <p><a class="button" href="/buy/fabric-per-dozen">Put in a cloth</a></p>
  `;
}

const lineInWords = ({ size, cloth }) => nameOf('product', { size, cloth });

/** The sizes and cloths of a plan, each with its quantity, and whether low strips may be stacked. */
export function Wanted({ plan, change, title }) {
  if (!plan.wanted.length) return null;
  return html`
    <section class="counts">
      <h2>${title}</h2>
      <ul class="lines">
        ${plan.wanted.map(
          (line) => html`
          <li key=${`${line.size} ${line.cloth}`} data-wanted=${line.quantity}>
            <span>${lineInWords(line)}</span>
            <${Stepper} name=${lineInWords(line)} value=${line.quantity} set=${(quantity) => change(withWanted(plan, line, quantity))} />
          </li>
        `,
        )}
      </ul>
      <label class="tick"><input type="checkbox" name="stacking" checked=${plan.stages === 3} onChange=${({ target }) => change(changed(plan, { stages: target.checked ? 3 : 2 }))} />
        <span>Stack low strips in a higher row<small>Only where less is to be bought so: it takes more cuts.</small></span></label>
    </section>
  `;
}

/** More of a size in a cloth; or what the shopping list asks for, where it is about that. */
export function AddWanted({ plan, change, fromList = false }) {
  const names = (kind) => records(kind).map((record) => [record.id, record.name]);
  // as chosen before what was missing was said
  const { query } = useLocation();
  const firstOf = (kind, id) => (records(kind).find((record) => record.id === id) ?? records(kind)[0]).id;
  const [size, setSize] = useState(firstOf('piece', query.size));
  const [cloth, setCloth] = useState(firstOf('cloth', query.cloth));
  const before = plan.wanted.find((line) => line.size === size && line.cloth === cloth)?.quantity ?? 0;
  const missing = unmeasured(recordById('cloth', cloth));
  const listed = fromList ? wantedOnList() : [];
  const take = () => change(listed.reduce((next, line) => withWanted(next, line, line.quantity), plan));
  return html`
    <section class="plain">
      <div class="fields">
        <${Choice} id="cut-size" name="size" label="Size" value=${size} set=${setSize} choices=${names('piece')} />
        <${Choice} id="cut-cloth" name="cloth" label="Cloth" value=${cloth} set=${setCloth} choices=${names('cloth')} />
      </div>
      ${
        missing.length > 0 &&
        html`<p class="hint" data-unmeasured>Of ${nameOf('cloth', recordById('cloth', cloth))} is still needed: ${missing.join(', ')}. ${html`<a href=${thereAndBack(`/settings/cloth/${cloth}`, { size, cloth })}>Say it</a>`}</p>`
      }
      <div class="next-steps">
        <button type="button" data-add disabled=${missing.length > 0} onClick=${() => change(withWanted(plan, { size, cloth }, before + DOZEN))}>Add a dozen</button>
        ${listed.length > 0 && html`<button type="button" data-from-list onClick=${take}>Take what is on the shopping list</button>`}
      </div>
    </section>
  `;
}
