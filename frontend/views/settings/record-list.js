/* The records of one kind: a way to make another, and a line each; bookings by month, products by size. */
import { html } from 'htm/preact';
import { bringBack, putAway } from '../../data/actions.js';
import { kindNamed, nextDays } from '../../data/calculating.js';
import { today } from '../../data/clock.js';
import { dayInWords, nameOf } from '../../data/naming.js';
import { mayDo } from '../../data/record-forms.js';
import { clashOf, mayKnow, recordById, records } from '../../data/records.js';
import { byMonth, grouped, Groups } from '../parts/groups.js';
import { KeptState } from '../parts/kept-state.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { thereAndBack } from '../parts/way-back.js';
import { KINDS } from './record-kinds.js';

export function RecordList({ kind: name }) {
  useRecords();
  const kind = KINDS.find((known) => known.name === name);
  if (!kind || !mayKnow(name)) return html`<${NoSuchScreen} />`;
  const found = records(name);
  const line = lineOf(name);
  const may = mayDo(kindNamed(name));
  return html`
    <h1>${kind.title}</h1>
    ${may === 'write' && name === 'product' && html`<p><a class="button main" href=${thereAndBack('/sell/goods')}>Add sizes and cloths together</a></p>`}
    ${may !== 'read' && !(kind.single && found.length) && html`<p><a class=${name === 'product' ? 'button' : 'button main'} href=${`/settings/${name}/new`}>Add ${kind.one.toLowerCase()}</a></p>`}
    ${found.length === 0 && html`<p class="lead" data-missing=${name}>None yet. ${kind.why}</p>`}
    ${may === 'read' && !found.length && html`<p class="hint">An owner's phone adds one.</p>`}
    <div data-kind=${name}>${name in GROUPED ? html`<${Groups} groups=${GROUPED[name](found)} line=${line} />` : html`<ul class="lines">${found.map(line)}</ul>`}</div>
    ${may === 'write' && name !== 'remnant' && html`<${Archived} kind=${name} />`}
  `;
}

// a remnant that was cut up is archived, too: it comes back with its cut
function Archived({ kind }) {
  const away = records(kind, true).filter(({ archived }) => archived);
  if (!away.length) return null;
  const back = ({ id }, name) =>
    saying(
      `${name} is offered again`,
      () => bringBack(kind, id),
      () => putAway(kind, id),
    );
  return html`
    <details class="more" data-archived=${away.length}>
      <summary>Archived (${away.length})</summary>
      <ul class="lines">${away.map((record) => {
        const name = nameOf(kind, record);
        return html`<li key=${record.id}><span>${name}</span> <button type="button" class="quiet" aria-label=${`Bring back ${name}`} onClick=${() => back(record, name)}>Bring back</button></li>`;
      })}</ul>
    </details>
  `;
}

const lineOf = (name) => (record) =>
  html`
        <li key=${record.id}>
          <span><a class="to-record" href=${`/settings/${name}/${record.id}`}>${nameOf(name, record)}</a>
            ${clashOf(name, record.id) && html`<small>changed on two phones</small>`}</span>
          ${name === 'market' && html`<${Book} market=${record} />`}
          <${KeptState} id=${record.id} />
        </li>`;

const GROUPED = { booking: bookingsByMonth, product: productsBySize };

// the next market first, then month by month back
function bookingsByMonth(found) {
  const last = (booking) => booking.days?.at(-1) ?? '';
  const inOrder = [...found].sort((a, b) => (last(a) < last(b) ? -1 : 1));
  const coming = inOrder.filter((booking) => last(booking) >= today());
  const past = inOrder.filter((booking) => last(booking) < today()).reverse();
  return [...(coming.length ? [{ title: 'Coming', rows: coming }] : []), ...byMonth(past, last)];
}

// the sizes in the order of their making, as at the stall; of each, the newest product first
function productsBySize(found) {
  const sizes = records('piece', true).map(({ id }) => id);
  const inOrder = [...found].reverse().sort((a, b) => sizes.indexOf(a.size) - sizes.indexOf(b.size));
  return grouped(inOrder, ({ size }) => recordById('piece', size)?.name ?? 'No size');
}

function Book({ market }) {
  const booked = new Set(
    records('booking')
      .filter((booking) => booking.market === market.id)
      .flatMap((booking) => booking.days),
  );
  const days = useWords(
    () => (market.recurrence && market.first_day ? nextDays(market.recurrence, market.first_day, today(), 8) : []),
    [JSON.stringify(market)],
  );
  const next = Array.isArray(days) && days.find((day) => !booked.has(day));
  if (!next) return null;
  return html`<a class="button" href=${`/settings/booking/new?market=${market.id}&days=${next}`}>Book ${dayInWords(next)}</a>`;
}
