/* Review opens on today's market, or the last day that sold; the other days below it. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { keepBooks } from '../../data/books.js';
import { today } from '../../data/clock.js';
import { dayInWords } from '../../data/naming.js';
import { mayKnow } from '../../data/records.js';
import { dayReport, daysTaken, marketOf } from '../../data/reviewing.js';
import { syncSoon } from '../../data/sync.js';
import { bookingsToday } from '../../data/till.js';
import { showMoney } from '../parts/money.js';
import { useFollowed, useFollowing } from '../parts/use-records.js';
import { CashBoxes, countOf, reportOf } from './told.js';

const AT_ONCE = 10;

export function ReviewHome() {
  const [most, setMost] = useState(AT_ONCE);
  const [told, isOfNow] = useFollowing(() => daysTaken(most), [most]);
  useEffect(syncSoon, []);
  if (!told) return html`<h1>Review</h1>`;
  const booked = bookingsToday().map(({ id }) => id);
  const day = booked.length ? today() : told.rows[0]?.day;
  if (!day) {
    return html`
      <h1>Review</h1>
      <p class="lead">Nothing was sold yet. Once it is, each day is looked back on here: takings, cash-up, what is left.</p>
      <p><a class="button main" href="/sell">Sell</a></p>
      <${Money} />
    `;
  }
  const [here, others] = [true, false].map((same) => told.rows.filter((row) => (row.day === day) === same));
  const bookings = new Set([...here.map(({ booking }) => booking), ...(day === today() ? booked : [])]);
  return html`
    <h1>Review</h1>
    ${[...bookings].map((booking) => html`<${Day} key=${booking} day=${day} booking=${booking} />`)}
    <${Money} />
    ${
      others.length > 0 &&
      html`<section class="plain">
      <h2>Days before</h2>
      <ul class="lines" data-days>${others.map((row) => html`<${Row} key=${`${row.day} ${row.booking}`} ...${row} />`)}</ul>
      ${told.more && html`<button type="button" data-earlier disabled=${!isOfNow} onClick=${() => setMost(most + AT_ONCE)}>${isOfNow ? 'Earlier days' : 'Reading…'}</button>`}
    </section>`
    }
  `;
}

// for owners: a helper has none of these figures
function Money() {
  const known = mayKnow('purchase');
  useEffect(() => {
    let left = false;
    if (known) keepBooks(() => left);
    return () => {
      left = true;
    };
  }, [known]);
  if (!known) return null;
  return html`
    <section class="plain">
      <h2>Money</h2>
      <ul class="ways">
        <li><a href="/review/next">The next market <span>How many of each to bring, and why</span></a></li>
        <li><a href="/review/sew">What to sew <span>Which batches before the next markets, and what stands in the way</span></a></li>
        <li><a href="/review/costs">Costs <span>What one piece costs, and where each figure came from</span></a></li>
        <li><a href="/review/markets">Markets <span>What an hour earned at each, and which to keep</span></a></li>
        <li><a href="/review/year">The year <span>Takings, costs and profit by month and market; files for the books</span></a></li>
        <li><a href="/review/price">Prices <span>What each price leaves, at the stall, in shops, in an offer</span></a></li>
        <li><a href="/buy/purchases">Purchases <span>Material that was bought</span></a></li>
        <li><a href="/review/expenses">Expenses <span>What was spent beside it, and overheads</span></a></li>
      </ul>
    </section>
  `;
}

function Day({ day, booking }) {
  const report = useFollowed(() => dayReport(day, booking), [day, booking]);
  return html`
    <section class="plain" data-day=${day}>
      <h2>${marketOf(booking)}, ${day === today() ? 'today' : dayInWords(day)}</h2>
      ${
        report &&
        html`
        <p class="total"><strong class="number review-figure" data-takings=${report.takings.amount}>${showMoney(report.takings.amount)}</strong>
          <small>${countOf(report.takings)}</small></p>
        <p class="next-steps"><a class="button" href=${reportOf(day, booking)}>The day's report</a></p>
        <${CashBoxes} day=${day} booking=${booking} boxes=${report.boxes} />
      `
      }
    </section>
  `;
}

function Row({ day, booking, amount, ...row }) {
  return html`
    <li data-day=${day}>
      <a class="to-record" href=${reportOf(day, booking)}><span>${dayInWords(day)} <small>${marketOf(booking)}: ${countOf(row)}</small></span></a>
      <span class="number" data-takings=${amount}>${showMoney(amount)}</span>
    </li>
  `;
}
