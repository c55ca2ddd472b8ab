/* The records of one kind: a line each, and a way to make another. */
import { html } from 'htm/preact';
import { kindNamed, nextDays } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { dayInWords, nameOf } from '../../data/naming.js';
import { mayDo } from '../../data/record-forms.js';
import { clashOf, records } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { KINDS } from './record-kinds.js';

export function RecordList({ kind: name }) {
  useRecords();
  const kind = KINDS.find((known) => known.name === name);
  if (!kind) return html`<${NoSuchScreen} />`;
  const found = inOrder(name, records(name));
  const may = mayDo(kindNamed(name));
  return html`
    <h1>${kind.title}</h1>
    ${found.length === 0 && html`<p class="lead">None yet.</p>`}
    <ul class="lines" data-kind=${name}>
      ${found.map((record) => html`
        <li key=${record.id}>
          <span><a class="to-record" href=${`/settings/${name}/${record.id}`}>${nameOf(name, record)}</a>
            ${clashOf(name, record.id) && html`<small>changed on two phones</small>`}</span>
          ${name === 'market' && html`<${Book} market=${record} />`}
          <${KeptState} id=${record.id} />
        </li>
      `)}
    </ul>
    ${may !== 'read' && !(kind.single && found.length) && html`<p><a class="button main" href=${`/settings/${name}/new`}>Add ${kind.one.toLowerCase()}</a></p>`}
  `;
}

// the next market first
function inOrder(name, found) {
  if (name !== 'booking') return found;
  const last = (booking) => booking.days?.at(-1) ?? '';
  return [...found].sort((a, b) => (last(b) >= today()) - (last(a) >= today()) || (last(a) >= today() ? 1 : -1) * (last(a) < last(b) ? -1 : 1));
}

function Book({ market }) {
  const booked = new Set(records('booking').filter((booking) => booking.market === market.id).flatMap((booking) => booking.days));
  const days = useWords(() => (market.recurrence && market.first_day ? nextDays(market.recurrence, market.first_day, today(), 8) : []), [JSON.stringify(market)]);
  const next = Array.isArray(days) && days.find((day) => !booked.has(day));
  if (!next) return null;
  return html`<a class="button" href=${`/settings/booking/new?market=${market.id}&days=${next}`}>Book ${dayInWords(next)}</a>`;
}
