/* One booking opened to its parts: what it brought, what it cost, and when it had paid for itself. */
import { html } from 'htm/preact';
import { bookingTold } from '../../data/books.js';
import { dateInWords, dayInWords, timeAtBooking } from '../../data/naming.js';
import { mayKnow, records } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Refused } from '../parts/refused.js';
import { useAsked } from '../parts/use-records.js';
import { thereAndBack } from '../parts/way-back.js';
import { nameOfMarket } from './market-words.js';
import { SummingUp } from './summing-up.js';
import { reportOf } from './told.js';

// what each part is called, and where it comes from
const PARTS = [
  ['refunds', 'Given back', null],
  ['goods', 'Material of the pieces', '/review/costs'],
  ['fee', 'Fee', 'booking'],
  ['share', 'Share of takings', 'booking'],
  ['card', 'Card', 'business'],
  ['travel', 'Travel', 'booking'],
  ['helpers', 'Helpers', '/review/costs'],
  ['other', 'Other costs', 'booking'],
  ['expenses', 'Expenses', '/review/expenses'],
];

export function BookingResult({ booking }) {
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  return html`<${Opened} booking=${booking} />`;
}

function Opened({ booking }) {
  const [told, trouble] = useAsked(async () => ({ of: booking, result: await bookingTold(booking) }), [booking]);
  if (trouble) return html`<h1>A booking</h1><${Refused} ...${trouble} />`;
  if (told?.of !== booking) return html`<h1>A booking</h1><${SummingUp} />`;
  if (!told.result) return html`<${NoSuchScreen} />`;
  const { result } = told;
  return html`
    <h1>${nameOfMarket(result)}, ${dayInWords(result.days[0])}</h1>
    <div class="review-report" data-profit=${result.profit}>
      <p class="total"><strong class="number review-figure">${showMoney(result.profit)}</strong> <small>left of it</small></p>
      <${Parts} result=${result} />
      <${Hours} booking=${booking} result=${result} />
    </div>
    <p class="next-steps no-print">
      ${result.days.map((day) => html`<a class="button" href=${reportOf(day, booking)}>${result.days.length > 1 ? `The report of ${dateInWords(day)}` : "The day's report"}</a>`)}
      <a class="button" href=${thereAndBack(`/settings/booking/${booking}`)}>Its fee, way and hours</a>
      <button type="button" onClick=${() => print()}>Print</button>
    </p>
  `;
}

function Parts({ result }) {
  const places = {
    booking: thereAndBack(`/settings/booking/${result.booking}`),
    business: thereAndBack(`/settings/business/${records('business')[0]?.id ?? 'new'}`),
  };
  return html`
    <table class="review-figures">
      <thead><tr><th scope="col">What</th><th scope="col">Money</th></tr></thead>
      <tbody>
        <tr data-part="takings" data-money=${result.takings}><th scope="row">${records('business')[0]?.tax_percent ? 'Taken, without tax' : 'Taken'}</th><td>${showMoney(result.takings)}</td></tr>
        ${PARTS.filter(([part]) => result[part]).map(
          ([part, words, from]) => html`<tr key=${part} data-part=${part} data-money=${result[part]}>
          <th scope="row"><${Named} words=${words} about=${aboutPart(part, result)} path=${places[from] ?? from} /></th>
          <td>${showMoney(-result[part])}</td></tr>`,
        )}
        <tr data-part="profit" data-money=${result.profit}><th scope="row"><strong>Left</strong></th><td><strong>${showMoney(result.profit)}</strong></td></tr>
      </tbody>
    </table>
  `;
}

function aboutPart(part, { pieces, uncosted, helper_minutes: helped, spent, charged }) {
  const said = {
    goods: `${pieces} sold${uncosted > 0 ? `, ${uncosted} of them of unknown cost` : ''}`,
    travel: `${charged.trips} × ${charged.distance_km} km`,
    helpers: `${minutesInWords(helped)}`,
    share: `${charged.fee_percent} %`,
    expenses: spent.map(({ what }) => what).join(', '),
  }[part];
  return said;
}

function Named({ words, about, path }) {
  const said = html`<span>${words}${about && html` <small>${about}</small>`}</span>`;
  return path ? html`<a class="to-record" href=${path}>${said}</a>` : said;
}

function Hours({ booking, result: { own_minutes: own, open_minutes: open, per_hour: hour, after_wage: after, broke_even_at: at } }) {
  return html`
    <ul class="review-said">
      ${
        own === null
          ? html`<li>When it opens and closes is not said, so what an hour earned is not known.</li>`
          : html`<li data-own-minutes=${own}>${minutesInWords(own)} of yours: ${minutesInWords(open)} open, the rest the way and setting up.
          That is <strong class="number" data-per-hour=${hour}>${showMoney(hour)}</strong> an hour${after === null ? '' : `; ${showMoney(after)} with them paid`}.</li>`
      }
      <li data-broke-even-at=${at}>${at === null ? 'What was sold never paid for it.' : `It had paid for itself at ${timeAtBooking(at, booking)}.`}</li>
    </ul>
  `;
}

function minutesInWords(minutes) {
  const [hours, rest] = [Math.floor(minutes / 60), Math.round(minutes % 60)];
  return [hours && `${hours} h`, (rest || !hours) && `${rest} min`].filter(Boolean).join(' ');
}
