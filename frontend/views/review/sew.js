/* What to sew before each of the next bookings, against the minutes there are; one tap makes it the sewing plan. */
import { countInWords } from '../../data/naming.js';
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { findBatches, keepSewingChoices, makeSewingPlans, sewingAsked, sewingChoices } from '../../data/next-sewing.js';
import { stopLooking } from '../../data/next-market.js';
import { mayKnow, records } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying, useOnce } from '../parts/notice.js';
import { Refused } from '../parts/refused.js';
import { useAskedSoon, useRecords } from '../parts/use-records.js';
import { useSearch } from '../parts/use-search.js';
import { Missing } from '../parts/way-back.js';
import { Adding, AsBefore } from './adding.js';
import { SewingAsks, SewingChoices } from './sew-choices.js';
import { Booking, bookingInWords, NotSewn } from './sew-told.js';
import { Unbought } from './unbought.js';

export function Sew() {
  useRecords();
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  if (!records('product').length)
    return html`<h1>What to sew</h1><${Missing} kind="product" says="Nothing is sold yet. Say what you make, and what to sew next is told here." does="Say what you sell" path="/sell/goods" />`;
  return html`<${OfChoices} />`;
}

function OfChoices() {
  const [choices, setChoices] = useState(sewingChoices);
  const change = (more) =>
    setChoices((before) => {
      const next = { ...before, ...more };
      keepSewingChoices(next);
      return next;
    });
  const [adding, setAdding] = useState(null);
  useEffect(() => stopLooking, []);
  const show = (what, done, all) => setAdding({ what, done, all });
  const { told: asked, before, isOfNow, trouble } = useAskedSoon((showBefore) => sewingAsked(choices, show, showBefore), [choices]);
  if (trouble) return html`<h1>What to sew</h1><${Refused} ...${trouble} />`;
  return html`
    <h1>What to sew</h1>
    ${!asked && html`<${Adding} adding=${adding} />`}
    ${asked && !asked.bookings.length && html`<${Missing} kind="booking" says="No market is booked. Book the next ones, and what to sew for them is told here." does="Book a market" />`}
    ${asked && asked.bookings.length > 0 && html`<${Asked} asked=${asked} before=${before} isOfNow=${isOfNow} choices=${choices} change=${change} />`}
  `;
}

function Asked({ asked, before, isOfNow, choices, change }) {
  const unknown = asked.bench_from === 'unknown' || asked.demand_from === null;
  // the field that is typed in stays where it is once its first digit is an answer
  const saysHours = useRef(false);
  saysHours.current ||= asked.bench_from === 'unknown';
  return html`
    ${before && html`<${AsBefore} />`}
    <${SewingAsks} asked=${asked} saysHours=${saysHours.current} choices=${choices} change=${change} />
    ${!unknown && (asked.given ? html`<${Found} asked=${asked} isOfNow=${isOfNow} />` : html`<p class="lead" data-nothing>No product has a size and a cloth: without them nobody knows what a batch takes. <a href="/sell/goods">Say what you sell</a></p>`)}
    <${SewingChoices} asked=${asked} saysHours=${saysHours.current} choices=${choices} change=${change} />
  `;
}

function Found({ asked, isOfNow }) {
  const { route } = useLocation();
  const given = JSON.stringify(asked.given);
  const { told: found, problem, stop } = useSearch((show, stopped) => findBatches(asked, show, stopped, isOfNow), [given, isOfNow]);
  // asked the same once more, what was found stays until it is told again
  const last = useRef(null);
  if (found) last.current = { given, found };
  const told = last.current?.given === given ? last.current.found : null;
  const make = useOnce(async () => {
    const undo = (back) => saying('Undone: the sewing plan is as it was', back);
    if (await saying('The sewing plan is saved on this phone', () => makeSewingPlans(asked, told.result), undo)) route('/make');
  });
  if (problem) return html`<p class="problem" role="alert">${problem}</p>`;
  if (!told) return html`<p class="hint" role="status">Working it out …</p>`;
  const { result, done } = told;
  const pieces = piecesOf(asked, result);
  return html`
    <p class="lead">${knownFrom(asked)}</p>
    <${Unbought} unbought=${asked.unbought} products=${asked.products.map(({ product }) => product)} />
    ${asked.bookings.map((booking, index) => html`<${Booking} key=${booking.booking} booking=${booking} index=${index} asked=${asked} result=${result} />`)}
    <${Worth} asked=${asked} result=${result} done=${done && isOfNow} stop=${done || !found ? null : stop} />
    <${NotSewn} asked=${asked} result=${result} />
    <div class="dock next-steps">
      <button type="button" class="main" data-make-plan=${pieces} disabled=${!pieces || !isOfNow} onClick=${make}>${pieces ? `Make it the sewing plan: ${pieces} pieces` : 'Nothing to sew'}</button>
    </div>
  `;
}

const piecesOf = ({ given }, { plan }) =>
  plan.reduce((sum, { product, batches }) => sum + batches * given.products.find((row) => row.product === product).batch, 0);

// what it all rests on, in a line
function knownFrom({ demand_from: from, market_days: days, bookings, bench_from: bench, wage }) {
  const first = bookingInWords(bookings[0]);
  const demand = {
    here: `What will be asked for is learnt from ${countInWords(days, 'market day')}`,
    elsewhere: `Nothing was sold before at the market of ${first}: what will be asked for is learnt from ${countInWords(days, 'market day')} elsewhere`,
    guess: 'Nothing was sold yet: what will be asked for is your guess',
  }[from];
  const time = { said: 'your hours', typed: 'the hours you typed', worked: 'the hours that your laps show' }[bench];
  return `${demand}; time is ${time}${wage ? `, at ${showMoney(wage)} an hour` : ''}. It brings most on average: some days ask for more, some for less.`;
}

function Worth({ asked, result: { worth, gap, optimal, hour_worth: hour }, done, stop }) {
  return html`
    <section class="verdict" role="status" data-worth=${worth} data-gap=${gap} data-proven=${optimal} data-looking=${!done}>
      <p>It brings about <strong class="number">${showMoney(Math.round(worth))}</strong>${asked.wage ? ' after your wage' : '; no wage is set, so your time counts nothing'}. ${sureness(optimal, gap)}</p>
      <p data-hour=${hour}>${hour >= 1 ? html`One more hour at the bench now would bring about <strong class="number">${showMoney(Math.round(hour))}</strong>.` : 'One more hour at the bench now would bring nothing more.'}</p>
      ${stop && html`<p class="no-print">Looking for a better plan … <button type="button" data-stop onClick=${stop}>Stop, keep this</button></p>`}
    </section>
  `;
}

// rounded up, so that what is said holds
function sureness(optimal, gap) {
  if (optimal) return 'Proven: by these figures no plan brings more.';
  return `By these figures no plan brings more than ${(Math.ceil(gap * 10) / 10).toLocaleString()} % more.`;
}
