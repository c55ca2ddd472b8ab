/* A purchase that stands on no list, or a line of it whose material nobody named: what it is, how much, what was paid. */
import { html } from 'htm/preact';
import { kindNamed } from '../../data/calculating.js';
import { MATERIALS } from '../../data/purchases.js';
import { mayKnow, recordById } from '../../data/records.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { NewFact } from '../review/new-fact.js';

const WORDS = { cloth: 'Cloth', elastic: 'Elastic', thread: 'Thread', supply: 'Other' };
const FIELDS = {
  cloth: { help: 'Which cloth' },
  elastic: { help: 'Which elastic' },
  thread: { help: 'Which thread' },
  supply: { help: 'Which supply: bags, needles, blades' },
  quantity: { label: 'how many', help: 'Rolls, spools or packs' },
  length: { help: 'As the shop cut it' },
  amount: { label: 'paid', help: 'For all of it, tax included' },
  tax: { help: 'Tax in it, where that comes back to you' },
  box: { label: 'cash box', help: 'The box the money came out of, if any' },
  booking: { label: 'market', help: 'The market it was for, if any' },
};
const NAMES = MATERIALS.map(([kind]) => kind);
const BESIDE = ['amount', 'tax', 'day', 'box', 'booking'];

export function Purchase({ line: id }) {
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  const line = recordById('list-line', id);
  const start = { line: line?.id ?? null, amount: line?.cost ?? null, quantity: line?.packs ?? null };
  return html`
    <h1>${line ? line.name : 'A purchase'}</h1>
    <${NewFact} key=${id} of=${id} kind=${kindNamed('purchase')} start=${start} names=${namesOf} words=${FIELDS} back=${line ? '/buy/list' : '/buy/purchases'} said="The purchase is recorded">
      ${(form) => html`<${Which} form=${form} />`}
    <//>
  `;
}

const kindOf = (typed) => NAMES.find((name) => typed[name]) ?? typed.which ?? 'cloth';

// cloth is bought by its length, elastic by that or by the roll, the rest by the piece
function namesOf(typed) {
  const kind = kindOf(typed);
  const measures = { cloth: ['length'], elastic: ['quantity', 'length'] }[kind] ?? ['quantity'];
  return [kind, ...measures, ...BESIDE];
}

function Which({ form }) {
  const chosen = kindOf(form.typed);
  const none = Object.fromEntries([...NAMES, 'length', 'quantity'].map((name) => [name, '']));
  return html`
    <div class="start-from" role="group" aria-label="What was bought">
      ${NAMES.map((name) => html`<button type="button" class="chip" aria-pressed=${chosen === name} onClick=${() => name !== chosen && form.fill({ ...none, which: name })}>${WORDS[name]}</button>`)}
    </div>
  `;
}
