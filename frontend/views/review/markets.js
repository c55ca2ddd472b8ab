/* Each market beside the others: what an hour there earns, with how sure that is, against her wage. */
import { html } from 'htm/preact';
import { bookedAt } from '../../data/bookings.js';
import { bookingTold, marketsTold } from '../../data/books.js';
import { dateInWords, dayInWords, timeAtBooking } from '../../data/naming.js';
import { mayKnow, records } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Refused } from '../parts/refused.js';
import { useAsked, useFollowed } from '../parts/use-records.js';
import { basedOn, breakEvenInWords, chanceInWords, nameOfMarket, rangeInWords, resultOf, verdictInWords } from './market-words.js';
import { Notes } from './notes.js';
import { Opens } from './opens.js';
import { SummingUp } from './summing-up.js';

export function Markets() {
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  return html`<${Told} />`;
}

function Told() {
  const [told, trouble] = useAsked(marketsTold, []);
  if (trouble) return html`<h1>Markets</h1><${Refused} ...${trouble} />`;
  if (!told) return html`<h1>Markets</h1><${SummingUp} /><${Booked} />`;
  const judged = told.markets.filter(({ mean }) => mean !== null);
  return html`
    <h1>Markets</h1>
    ${told.bookings.length ? html`<${Lead} wage=${told.wage} />` : html`<${NothingYet} />`}
    <${Notes} notes=${told.notes} />
    <div class="review-report">${told.markets.map((market) => html`<${Market} key=${market.key} market=${market} told=${told} scale=${scaleOf(judged, told.wage)} />`)}</div>
    ${
      told.bookings.length > 0 &&
      html`<p class="hint">Profit is what was taken, without tax, less what the material of the pieces cost, fees, card, travel, helpers and expenses.
      Your hours there are opening, setting up and the way; what you sew at home is not among them.
      A market with few days is drawn towards all your markets, as few days say little.</p>`
    }
    <p class="next-steps no-print"><a class="button" href="/review/year">The year</a><button type="button" onClick=${() => print()}>Print</button></p>
  `;
}

// what can be said of each before anything is added up
const Booked = () => html`
  <div class="review-report">${records('market').map(
    (market) => html`<section class="plain review-market" key=${market.id} data-booked=${market.id}>
    <h2>${nameOfMarket(market)}</h2><p class="hint">${bookedInWords(bookedAt(market.id))}</p></section>`,
  )}</div>
`;

function bookedInWords({ over, next }) {
  const said = over === 1 ? 'One booking until now.' : `${over || 'No'} bookings until now.`;
  return next ? `${said} The next one is on ${dayInWords(next)}.` : said;
}

const Lead = ({ wage }) => html`
  <p class="lead">What an hour of yours there earned, your sewing at home not counted${wage === null ? '.' : html`, against the <strong class="number" data-wanted=${wage}>${showMoney(wage)}</strong> that you pay for an hour, the broken line.`} <a href="/review/costs">Costs</a></p>
`;

const NothingYet = () => html`
  <p class="lead" data-no-market-over>No booking with sales is over yet. The day after the first one, what it earned stands here.</p>
`;

// all rows have one scale: from the least to the most that any of them may earn, nothing and the wage among it
function scaleOf(markets, wage) {
  const values = [0, wage ?? 0, ...markets.flatMap(({ shrunk, low, high }) => [shrunk, low ?? shrunk, high ?? shrunk])];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return (value) => 2 + (96 * (value - least)) / (most - least || 1);
}

function Market({ market, told, scale }) {
  const { key, verdict, shrunk, break_even: needed, chance } = market;
  const bookings = told.bookings.filter((booking) => booking.key === key);
  return html`
    <section class="plain review-market" id=${key} data-market=${key} data-verdict=${verdict ?? 'no day'} data-hour=${shrunk}>
      <h2>${nameOfMarket(market)}</h2>
      ${shrunk !== null && html`<p class="review-verdict">${verdictInWords(market, told.wage)}</p><${Hour} market=${market} wage=${told.wage} scale=${scale} />`}
      <ul class="review-said">
        <li>${basedOn(market, told.markets)}</li>
        ${chance !== null && told.wage !== null && html`<li data-chance=${chance}>${chanceInWords(chance, told.wage)}</li>`}
        ${needed && breakEvenInWords(needed, told.wage).map((line) => html`<li>${line}</li>`)}
        ${bookings.length > 0 && html`<${LastTime} booking=${bookings[0].booking} />`}
      </ul>
      ${bookings.length > 0 && html`<${Days} bookings=${bookings} />`}
    </section>
  `;
}

// from the sales of that booking: it comes after what is there at once
function LastTime({ booking }) {
  const told = useFollowed(() => bookingTold(booking), [booking]);
  if (!told) return null;
  const { broke_even_at: at } = told;
  return html`<li data-broke-even-at=${at}>${at === null ? 'The last one never paid for itself.' : `The last one had paid for itself at ${timeAtBooking(at, booking)}.`}</li>`;
}

// the numbers stand beside it
function Hour({ market: { shrunk, low, high }, wage, scale }) {
  return html`
    <div class="review-hour">
      <svg viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
        <line class="review-axis" x1="0" x2="100" y1="6" y2="6" />
        ${low !== null && html`<line class="review-range" x1=${scale(low)} x2=${scale(high)} y1="6" y2="6" />`}
        ${wage !== null && html`<line class="review-wage" x1=${scale(wage)} x2=${scale(wage)} y1="0" y2="12" />`}
        <line class="review-dot" x1=${scale(shrunk)} x2=${scale(shrunk)} y1="6" y2="6" />
      </svg>
      <p><strong class="number">${showMoney(shrunk)}</strong> an hour <small>${rangeInWords(low, high)}</small></p>
    </div>
  `;
}

function Days({ bookings }) {
  return html`
    <${Opens} said=${html`<span class="label">${bookings.length === 1 ? 'The booking' : `The ${bookings.length} bookings`} behind it</span>`} word="show">${() => html`<table class="review-figures">
        <thead><tr><th scope="col">Day</th><th scope="col">left</th><th scope="col">an hour</th></tr></thead>
        <tbody>${bookings.map(
          (booking) => html`<tr key=${booking.booking} data-booking=${booking.booking} data-profit=${booking.profit}>
          <th scope="row"><a class="to-record" href=${resultOf(booking.booking)}>${dateInWords(booking.days[0])}</a></th>
          <td>${showMoney(booking.profit)}</td><td>${booking.per_hour === null ? '–' : showMoney(booking.per_hour)}</td></tr>`,
        )}</tbody>
      </table>`}<//>
  `;
}
