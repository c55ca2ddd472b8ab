/* What a ticked line has become: cloth at home, at the length and price paid, ready for the cutting plan; or packs of other material. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { bought, homeOf, notBought, planFor } from '../../data/bringing-home.js';
import { kindNamed, lengthsInWords } from '../../data/calculating.js';
import { materialOfLine } from '../../data/purchases.js';
import { fieldsOf } from '../../data/record-forms.js';
import { Field } from '../parts/field.js';
import { saying, useOnce } from '../parts/notice.js';
import { useWords } from '../parts/use-words.js';
import { useRecordForm } from '../settings/record-form.js';

const PAID = {
  length_to_buy: { label: 'length bought', help: 'As the shop cut it' },
  packs: { label: 'rolls, spools or packs', help: 'How many are in the bag' },
  cost: { label: 'paid', help: 'For all of it' },
};
const OF_CLOTH = ['length_to_buy', 'cost'];
const OF_PACKS = ['packs', 'cost'];

/** Record a line as bought, for {length_to_buy, cost} where it was otherwise than listed; says so, with undo. */
export function sayBought(line, paid) {
  const before = paid && Object.fromEntries(Object.keys(paid).map((name) => [name, line[name]]));
  return saying(
    `${line.name} is in the bag`,
    async () => ({ home: await bought(line, paid) }),
    () => (line.bought ? bought(line, before) : notBought(line)),
  );
}

/** What a line of saved material is now; `asks` where what was paid is to be looked at. */
export function AtHome({ line, asks }) {
  const [kind] = materialOfLine(line);
  if (kind === 'cloth') return html`<${ClothAtHome} line=${line} asks=${asks} />`;
  return html`
    <details class="more buy-at-home no-print" open=${asks}>
      <summary>How many, and what was paid</summary>
      <${Paid} line=${line} names=${OF_PACKS} />
    </details>
  `;
}

function ClothAtHome({ line, asks }) {
  const { route } = useLocation();
  const home = homeOf(line);
  const words = useWords(() => home && lengthsInWords([home.length, home.width], 'cm'), [home?.length, home?.width]);
  const cut = useOnce(async () => {
    await planFor(line);
    route('/make/cutting');
  });
  return html`
    <div class="buy-at-home no-print" data-at-home=${home?.length ?? ''}>
      ${home && words && html`<p class="hint">At home: ${words[0]} × ${words[1]}, once washed and trimmed.</p>`}
      ${!home && html`<p class="hint">Not at home: used up, or its width and shrinkage are not saved.</p>`}
      <details class="more" open=${asks}>
        <summary>Length and price paid</summary>
        <${Paid} line=${line} names=${OF_CLOTH} />
      </details>
      ${home && html`<button type="button" data-cut-from onClick=${cut}>Cut from it</button>`}
    </div>
  `;
}

function Paid({ line, names }) {
  const kind = kindNamed('list-line');
  const form = { ...useRecordForm(kind, line, `record:list-line:${line.id}`), calculator: { name: `paid-${line.id}` } };
  const asked = fieldsOf(kind).filter(({ name }) => names.includes(name));
  const save = useOnce(async () => {
    const newest = await form.newest();
    if (!newest) return;
    const paid = Object.fromEntries(asked.map(({ name }) => [name, newest[name]]));
    if (await sayBought(line, paid)) form.drop();
  });
  if (!form.typed) return null;
  return html`
    <form onSubmit=${save} novalidate autocomplete="off" data-paid>
      <div class="fields">
        ${asked.map((field) => {
          const { name } = field;
          return html`<${Field} key=${name} field=${{ ...field, ...PAID[name] }} path=${name} value=${form.typed[name]} form=${form} />`;
        })}
      </div>
      <p class="next-steps"><button type="submit" disabled=${!form.fields}>Save</button></p>
    </form>
  `;
}
