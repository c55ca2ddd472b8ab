/* What is told of a plan of sewing: each booking with its colours, batches and minutes, and what is not sewn. */
import { html } from 'htm/preact';
import { dayInWords, nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { UnboughtOf } from './unbought.js';

const WHY = {
  'does not pay': 'There is enough: a batch more would not bring back its time and material',
  'takes too long': 'There is no time for a batch',
  'too little cloth': 'Too little of its cloth is at home',
  'too little elastic': 'Too little elastic is at home',
  'others bring more': 'Others bring more in that time',
};

/** A booking with its first day, once. */
export function bookingInWords({ booking, days }) {
  const record = recordById('booking', booking);
  const name = nameOf('booking', record);
  return record?.name ? `${name}, ${dayInWords(days[0])}` : name;
}

/** Minutes as people say them: 3 h 10 min. */
export function minutesInWords(minutes) {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  return [hours > 0 && `${hours.toLocaleString()} h`, (rest > 0 || !hours) && `${rest} min`].filter(Boolean).join(' ');
}

const productName = (id) => nameOf('product', recordById('product', id));
const colourName = (colour) =>
  recordById('thread', colour)?.name ?? `A thread for ${nameOf('cloth', recordById('cloth', colour.slice(colour.indexOf(' ') + 1)))}`;

/** One booking: what is sewn for it, by colour, and how much of its time that takes. */
export function Booking({ booking, index, asked, result }) {
  const rows = result.plan.filter((row) => row.booking === booking.booking);
  const bench = result.bench[index];
  const colours = [...new Set(rows.map(({ colour }) => colour))];
  return html`
    <section class="plain" data-booking=${booking.booking} data-sewing=${takenBy(bench)} data-bench=${bench.minutes}>
      <h2>${bookingInWords(booking)}</h2>
      ${bench.minutes > 0 && html`<${Bench} taken=${takenBy(bench)} so=${result.bench.slice(0, index + 1).reduce((sum, one) => sum + takenBy(one), 0)} until=${bench.minutes} />`}
      ${index === 0 && asked.open_minutes > 0 && html`<p class="hint" data-open=${asked.open_minutes}>${minutesInWords(asked.open_minutes)} are taken off for open batches.</p>`}
      ${!rows.length && html`<p class="hint">${bench.minutes > 0 ? 'Nothing more to sew for it.' : 'No time to sew before it.'}</p>`}
      ${colours.map(
        (colour) => html`
        <h3>${colourName(colour)} <small>${minutesInWords(asked.given.colours.find(({ name }) => name === colour).minutes)} to get ready</small></h3>
        <ul class="lines">${rows.filter((row) => row.colour === colour).map((row) => html`<${Batches} key=${row.product} row=${row} asked=${asked} index=${index} />`)}</ul>`,
      )}
    </section>
  `;
}

const takenBy = ({ sewing, changes }) => sewing + changes;

// what those before it leave of their minutes is hers, too
function Bench({ taken, so, until }) {
  return html`
    <p class="total"><span>${minutesInWords(taken)} <small>to sew; of ${minutesInWords(until)} up to it ${minutesInWords(so)} are taken</small></span></p>
    <svg class="bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true"><rect class="review-bench" width="100" height="10" /><rect width=${Math.min(100, (100 * so) / until)} height="10" /></svg>
  `;
}

function Batches({ row: { product, batches, minutes, worth }, asked, index }) {
  const about = asked.products.find((one) => one.product === product);
  const { [product]: made } = asked.unbought;
  const { demand } = asked.given.products.find((one) => one.product === product);
  return html`
    <li data-batches=${batches} data-product=${product}>
      <details class="why review-batch">
        <summary class="said"><span class="label">${batches} × ${about.pieces} ${productName(product)}</span>
          <span class="number">${minutesInWords(minutes)}</span><span class="why-word">why</span></summary>
        <div class="why-told">
          <p>There are ${about.stock}${about.sewing ? `, and ${about.sewing} in open batches` : ''}.</p>
          <ul>${asked.bookings.map((booking, other) => html`<li>${bookingInWords(booking)}: about ${pieces(demand[other].mean)} will be asked for; a piece sold leaves ${showMoney(demand[other].gain)} ${made ? 'after fees and material' : 'after fees: what its material costs is not known before a batch of it is finished'}</li>`)}</ul>
          <${UnboughtOf} names=${made} />
          <p>A batch of ${about.pieces} takes ${minutesInWords(about.minutes)}, ${TIMES[about.minutes_from]}. ${batches === 1 ? 'It brings' : 'They bring'} about ${showMoney(Math.round(worth))}${asked.wage ? ' after your wage' : ''}, ready for ${bookingInWords(asked.bookings[index])}.</p>
        </div>
      </details>
    </li>
  `;
}

const TIMES = { laps: 'by your laps', guess: 'a guess: some of its steps were never timed', typed: 'as you guess' };

const pieces = (mean) => (mean < 10 ? (Math.round(mean * 10) / 10).toLocaleString() : Math.round(mean).toLocaleString());

/** What is not sewn, and what stands in its way. */
export function NotSewn({ asked, result }) {
  const found = Object.keys(WHY).map((why) => [why, result.not_made.filter((row) => row.why === why)]);
  const told = found.filter(([, rows]) => rows.length);
  if (!told.length && !asked.left_out) return null;
  return html`
    <section class="plain">
      <h2>Not sewn now</h2>
      <ul class="lines">${told.map(([why, rows]) => html`<li key=${why} data-why=${why}><span>${WHY[why]}<small>${rows.map(({ product }) => productName(product)).join(', ')}</small></span></li>`)}</ul>
      ${asked.left_out > 0 && html`<p class="hint">${asked.left_out} more products are not in it: there are more than can be planned at once.</p>`}
    </section>
  `;
}
