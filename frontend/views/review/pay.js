/* What an hour of work is paid, for all or for one person; said anew it holds from today. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { setWage, wages } from '../../data/costs.js';
import { dateInWords } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { AmountForm, NOTHING_TYPED, onceKept } from '../parts/amount-form.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { saying } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';

export function Pay() {
  const set = useFollowed(wages, []);
  const [typed, type] = useState(NOTHING_TYPED);
  const [person, choose] = useState('');
  if (!set) return null;
  const keep = async (amount) => {
    if (await saying(`${showMoney(amount)} an hour from today`, () => setWage(amount, person))) type(onceKept(typed));
  };
  return html`
    <section class="plain no-print">
      <h2>Pay for an hour</h2>
      ${
        set.length
          ? html`<ul class="lines">${set.map(
              (
                wage,
              ) => html`<li key=${wage.id} data-wage=${wage.wage}><span>${wage.person ? (recordById('person', wage.person)?.name ?? 'Somebody') : 'Everybody'}
        <small>from ${dateInWords(wage.from)}</small></span><span class="number">${showMoney(wage.wage)}</span></li>`,
            )}</ul>`
          : html`<p class="hint">Not set: time costs nothing until it is. What would you pay somebody for an hour?</p>`
      }
      ${records('person').length > 0 && html`<div class="review-goods"><${Choice} id="paid-person" name="person" label="Whose" value=${person} set=${choose} choices=${[['', 'Everybody'], ...records('person').map(({ id, name }) => [id, name])]} /></div>`}
      <${AmountForm} name="wage" label="Paid an hour, from today" typed=${typed} type=${type} keep=${keep} done="Set" />
    </section>
  `;
}
