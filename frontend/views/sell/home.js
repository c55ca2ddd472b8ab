/* Sell opens on today's stall; before that, on the question which one it is. */
import { useLayoutEffect, useReducer, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { describeNew } from '../../data/actions.js';
import { kindNamed } from '../../data/asking.js';
import { today } from '../../data/clock.js';
import { nameOf } from '../../data/naming.js';
import { mayAdd, mayEdit, records } from '../../data/records.js';
import { bookingsToday, closeStall, goods, openStall, placeOf, stall } from '../../data/till.js';
import { Choice } from '../parts/choice.js';
import { ClockOff, say, useOnce } from '../parts/notice.js';
import { SmallParts } from '../parts/small-parts.js';
import { useRecords } from '../parts/use-records.js';
import { thereAndBack } from '../parts/way-back.js';
import { ADD_GOODS } from './more.js';
import { Nothing, Stall } from './stall.js';

export function SellHome() {
  useRecords();
  const [, again] = useReducer((count) => count + 1, 0);
  const where = stall();
  // before it can be looked at
  useLayoutEffect(() => {
    document.addEventListener('visibilitychange', again);
    return () => document.removeEventListener('visibilitychange', again);
  }, []);
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
  if (!goods().length) return html`<h1>Sell</h1><${Nothing} />`;
  return html`
    <h1>Sell</h1>
    <${ClockOff} />
    ${
      bookings.length > 0 &&
      html`
      <section class="plain">
        <h2>Today</h2>
        ${bookings.map((booking) => html`<${Booked} key=${booking.id} booking=${booking} open=${open} />`)}
      </section>
    `
    }
    <${OnTheSpot} open=${open} />
    ${mayAdd('product') && html`<p><a href="/sell/goods">${ADD_GOODS}</a></p>`}
    <${SmallParts} />
  `;
}

function Booked({ booking, open }) {
  const place = placeOf(booking);
  const [box, setBox] = useState(records('cash-box')[0]?.id ?? null);
  return html`
    <div class="opening">
      <${RecordChoice} of=${booking.id} label="Cash box" kind="cash-box" value=${box} set=${setBox} none="none" />
      ${
        place
          ? html`<button type="button" class="main" onClick=${() => open({ booking: booking.id, place, box })}>Open ${nameOf('booking', booking)}</button>`
          : html`<p class="hint">${nameOf('booking', booking)} does not say yet where its stock is. ${mayEdit('booking') ? html`<a href=${thereAndBack(`/settings/booking/${booking.id}`)}>Say it</a>` : "An owner's phone says it."}</p>`
      }
    </div>
  `;
}

// what a booking takes over from its market
const termsOf = (market) =>
  Object.fromEntries(
    kindNamed('booking')
      .fields.filter(({ name }) => !['name', 'archived'].includes(name) && name in market)
      .map(({ name }) => [name, market[name]]),
  );

function OnTheSpot({ open }) {
  const [name, setName] = useState('');
  const [place, setPlace] = useState(firstStall);
  const [box, setBox] = useState(records('cash-box')[0]?.id ?? null);
  const begin = useOnce(async (called, more) => {
    try {
      const stand = more.place ?? place ?? (await describeNew('place', { name: `${called} stall`, use: 'stall' }));
      const booking = await describeNew('booking', { ...more, days: [today()], place: stand });
      open({ booking, place: stand, box });
    } catch (error) {
      say(error.message, { bad: true });
    }
  });
  const start = (event) => {
    event.preventDefault();
    begin(name.trim(), { name: name.trim() });
  };
  const booked = new Set(bookingsToday().map(({ market }) => market));
  const markets = records('market').filter(({ id }) => !booked.has(id));
  if (!place && !mayAdd('place')) return html`<p class="hint">There is no place yet: an owner's phone adds one.</p>`;
  return html`
    <form class="plain opening" onSubmit=${start} data-opening>
      <h2>Without a booking</h2>
      <div class="field">
        <label for="spot-name">Market</label>
        <span class="control"><input id="spot-name" name="name" maxlength="60" value=${name} onInput=${(event) => setName(event.target.value)} /></span>
      </div>
      <${RecordChoice} label="Stock is at" kind="place" value=${place} set=${setPlace} none=${mayAdd('place') ? 'a new stall' : null} />
      <${RecordChoice} label="Cash box" kind="cash-box" value=${box} set=${setBox} none="none" />
      <button type="submit" class="main" disabled=${!name.trim()}>Open the stall</button>
      ${
        markets.length > 0 &&
        html`<p class="hint">Or at a market you know:</p>
        <p class="start-from">${markets.map((market) => html`<button type="button" class="chip" data-market=${market.id} onClick=${() => begin(market.name, { ...termsOf(market), market: market.id })}>${market.name}</button>`)}</p>`
      }
    </form>
  `;
}

// who may not add a stall sells where stock is already
function firstStall() {
  const places = records('place');
  return (places.find(({ use }) => use === 'stall') ?? (mayAdd('place') ? null : places[0]))?.id ?? null;
}

// `of`: which booking is asked, where several are
function RecordChoice({ of = '', label, kind, value, set, none }) {
  const found = records(kind);
  if (!found.length) return null;
  const choices = [...(none ? [['', none]] : []), ...found.map((record) => [record.id, nameOf(kind, record)])];
  return html`<${Choice} id=${`open-${kind}${of}`} name=${kind} label=${label} value=${value ?? ''} set=${(id) => set(id || null)} choices=${choices} />`;
}
