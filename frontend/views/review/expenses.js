/* What was spent beside material: at markets and otherwise; and what it costs to be in business. */
import { html } from 'htm/preact';
import { kindNamed } from '../../data/calculating.js';
import { factsWithVoids } from '../../data/facts.js';
import { dateInWords, nameOf } from '../../data/naming.js';
import { mayKnow, recordById, records } from '../../data/records.js';
import { byMonth, Groups } from '../parts/groups.js';
import { showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { useFollowed, useRecords } from '../parts/use-records.js';
import { thereAndBack } from '../parts/way-back.js';
import { NewFact } from './new-fact.js';
import { SpentLine } from './spent-line.js';

export function Expenses() {
  useRecords();
  if (!mayKnow('expense')) return html`<${NoSuchScreen} />`;
  return html`
    <h1>Expenses</h1>
    <p class="lead">Parking, lunch, postage, a new table cloth: what was spent and is no material. <a href="/buy/purchases">Purchases</a></p>
    <p><a class="button main" href="/review/expense/new">Record an expense</a></p>
    <${Spent} />
    <${Overheads} />
  `;
}

function Spent() {
  const made = useFollowed(() => factsWithVoids('expense'), []);
  if (!made) return null;
  if (!made.length) return html`<p class="hint">None yet.</p>`;
  return html`<${Groups} groups=${byMonth(made, ({ day }) => day)} line=${line} />`;
}

function line(expense) {
  const market = expense.booking && (nameOf('booking', recordById('booking', expense.booking)) || 'a market');
  return html`<${SpentLine} key=${expense.id} fact=${expense} name=${expense.what} about=${[dateInWords(expense.day), market].filter(Boolean).join(' · ')} />`;
}

// told here too: they are spent as expenses are, and an hour of sewing carries them
function Overheads() {
  const found = records('overhead');
  return html`
    <section class="plain">
      <h2>Overheads</h2>
      ${!found.length && html`<p class="hint">None yet: insurance, a website, rent.</p>`}
      <ul class="lines">${found.map(
        ({ id, name, amount, per }) => html`<li key=${id}>
        <a class="to-record" href=${thereAndBack(`/settings/overhead/${id}`)}>${name}</a>
        <span class="number">${showMoney(amount)} a ${per}</span></li>`,
      )}</ul>
      <p><a class="button" href=${thereAndBack('/settings/overhead/new')}>Add an overhead</a></p>
    </section>
  `;
}

/** An expense being typed. */
export function Expense() {
  if (!mayKnow('expense')) return html`<${NoSuchScreen} />`;
  return html`
    <h1>An expense</h1>
    <${NewFact} of="new" kind=${kindNamed('expense')} start=${{}} names=${fieldNames} words=${FIELDS} back="/review/expenses" said="The expense is recorded" />
  `;
}

const FIELDS = {
  what: { label: 'what for', help: 'Parking, lunch, postage' },
  amount: { label: 'paid', help: 'For all of it' },
  booking: { label: 'market', help: 'The market it was for, if any' },
  box: { label: 'cash box', help: 'The box the money came out of, if any' },
};
const fieldNames = () => ['what', 'amount', 'booking', 'day', 'box'];
