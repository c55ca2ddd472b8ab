/* Sell opens on today's stall; before that, on the question which one it is. */
import { useReducer, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { describeNew } from '../../data/actions.js';
import { today } from '../../data/clock.js';
import { nameOf } from '../../data/naming.js';
import { records } from '../../data/records.js';
import { bookingsToday, closeStall, openStall, placeOf, stall } from '../../data/till.js';
import { Choice } from '../parts/choice.js';
import { say, useOnce } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { Stall } from './stall.js';

export function SellHome() {
  useRecords();
  const [, again] = useReducer((count) => count + 1, 0);
  const where = stall();
  const open = (next) => {
    openStall(next);
    again();
  };
  const close = () => {
    closeStall();
    again();
  };
  if (where) return html`<${Stall} where=${where} close=${close} />`;
  return html`<${Opening} open=${open} />`;
}

function Opening({ open }) {
  const bookings = bookingsToday();
  if (!records('product').length) {
    return html`
      <h1>Sell</h1>
      <p class="lead">There is nothing to sell yet. Say what you sell, and for how much.</p>
      <p><a class="button main" href="/settings/product/new">Add a product</a></p>
    `;
  }
  return html`
    <h1>Sell</h1>
    ${bookings.length > 0 && html`
      <section class="plain">
        <h2>Today</h2>
        ${bookings.map((booking) => html`<${Booked} key=${booking.id} booking=${booking} open=${open} />`)}
      </section>
    `}
    <${OnTheSpot} open=${open} />
  `;
}

function Booked({ booking, open }) {
  const place = placeOf(booking);
  const [box, setBox] = useState(records('cash-box')[0]?.id ?? null);
  return html`
    <div class="opening">
      <${RecordChoice} label="Cash box" kind="cash-box" value=${box} set=${setBox} none="none" />
      ${place
        ? html`<button type="button" class="main" onClick=${() => open({ booking: booking.id, place, box })}>Open ${nameOf('booking', booking)}</button>`
        : html`<p class="hint">${nameOf('booking', booking)} does not say yet where its stock stands.
            <a href=${`/settings/booking/${booking.id}`}>Say it</a></p>`}
    </div>
  `;
}

function OnTheSpot({ open }) {
  const [name, setName] = useState('');
  const [place, setPlace] = useState(records('place').find((known) => known.use === 'stall')?.id ?? null);
  const [box, setBox] = useState(records('cash-box')[0]?.id ?? null);
  const start = useOnce(async () => {
    const called = name.trim();
    try {
      const stand = place ?? (await describeNew('place', { name: `${called} stall`, use: 'stall' }));
      const booking = await describeNew('booking', { name: called, days: [today()], place: stand });
      open({ booking, place: stand, box });
    } catch (error) {
      say(error.message, { bad: true });
    }
  });
  return html`
    <form class="plain opening" onSubmit=${start} data-opening>
      <h2>On the spot</h2>
      <div class="field">
        <label for="spot-name">Market</label>
        <span class="control"><input id="spot-name" name="name" maxlength="60" value=${name} onInput=${(event) => setName(event.target.value)} /></span>
      </div>
      <${RecordChoice} label="Stock stands at" kind="place" value=${place} set=${setPlace} none="a new stall" />
      <${RecordChoice} label="Cash box" kind="cash-box" value=${box} set=${setBox} none="none" />
      <button type="submit" class="main" disabled=${!name.trim()}>Open the stall</button>
    </form>
  `;
}

function RecordChoice({ label, kind, value, set, none }) {
  const found = records(kind);
  if (!found.length) return null;
  const choices = [['', none], ...found.map((record) => [record.id, nameOf(kind, record)])];
  return html`<${Choice} id=${`open-${kind}`} name=${kind} label=${label} value=${value ?? ''} set=${(id) => set(id || null)} choices=${choices} />`;
}
