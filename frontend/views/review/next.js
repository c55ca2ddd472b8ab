/* The next market: how many of each to bring into a box of any size, why, and what will probably come home. */
import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { html } from 'htm/preact';
import { bookingsAhead } from '../../data/bookings.js';
import { countInWords, nameOf } from '../../data/naming.js';
import { inBox, keepNextChoices, nextChoices, notesOf, packFor, stopLooking, whatToBring } from '../../data/next-market.js';
import { dropPlan, planOf } from '../../data/plans.js';
import { mayKnow, recordById, records } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { saying, useOnce } from '../parts/notice.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { Refused } from '../parts/refused.js';
import { useAskedSoon, useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { Missing } from '../parts/way-back.js';
import { Adding, AsBefore } from './adding.js';
import { Box } from './box.js';
import { Carry } from './carry.js';
import { HowNear } from './how-near.js';
import { Brought } from './brought.js';
import { Unbought } from './unbought.js';

// a thumb chooses among these sooner than it types
const BUSY = [
  ['50', 'half as busy as usual'],
  ['75', 'a quarter less'],
  ['100', 'as usual'],
  ['125', 'a quarter more'],
  ['150', 'half as much again'],
  ['200', 'twice as busy'],
];
const PACK = '/count/pack';
const AT_LEAST = [
  ['0', 'as it comes'],
  ['1', 'one'],
  ['2', 'two'],
  ['3', 'three'],
];

export function NextMarket() {
  useRecords();
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  if (!records('product').length)
    return html`<h1>The next market</h1><${Missing} kind="product" says="Nothing is sold yet. Say what you make, and how many of each to bring is told here." does="Say what you sell" path="/sell/goods" />`;
  const ahead = bookingsAhead();
  if (!ahead.length)
    return html`<h1>The next market</h1><${Missing} kind="booking" says="No market is booked. Book one, and how many of each to bring is told here." does="Book a market" />`;
  return html`<${OfBooking} ahead=${ahead} />`;
}

function OfBooking({ ahead }) {
  const [choices, choose] = useState(nextChoices());
  const [adding, setAdding] = useState(null);
  const booking = (ahead.find(({ id }) => id === choices.booking) ?? ahead[0]).id;
  const { guess, factor, at_least, carry } = choices;
  useEffect(() => stopLooking, []);
  const asked = JSON.stringify([booking, guess, factor, at_least, carry]);
  const ofBooking = (next) => ({ booking, next });
  const { told, before, isOfNow, trouble } = useAskedSoon(
    async (showBefore) => {
      const show = (what, done, all) => setAdding({ what, done, all });
      return ofBooking(await whatToBring(booking, choices, show, (next) => showBefore(ofBooking(next))));
    },
    [asked],
  );
  const set = (name, value) => {
    const next = { ...choices, [name]: value };
    choose(next);
    keepNextChoices(next);
  };
  return html`
    <h1>The next market</h1>
    <div class="review-goods no-print"><${Choice} id="booking" name="booking" label="For" value=${booking} set=${(id) => set('booking', id)}
      choices=${ahead.map((one) => [one.id, nameOf('booking', one)])} /></div>
    ${trouble ? html`<${Refused} ...${trouble} />` : told?.booking !== booking || !told.next ? html`<${Adding} adding=${adding} />` : html`<${Told} key=${booking} booking=${booking} next=${told.next} before=${before} isOfNow=${isOfNow} choices=${choices} set=${set} />`}
  `;
}

function Told({ booking, next, before, isOfNow, choices, set }) {
  if (next.from === null) return html`<${Guess} set=${set} />`;
  if (!next.order.length)
    return html`<${From} next=${next} /><p class="lead" data-nothing>${next.stock ? 'Nothing that there is would bring money there.' : 'No pieces are in stock. What is made, or counted, can be brought.'}</p>
      ${next.from === 'guess' && html`<${Guess} value=${choices.guess} set=${set} />`}<${Brought} next=${next} pieces=${next.products.map(() => 0)} booking=${booking} />`;
  return html`<${Filled} booking=${booking} next=${next} before=${before} isOfNow=${isOfNow} choices=${choices} set=${set} />`;
}

function Filled({ booking, next, before, isOfNow, choices, set }) {
  const most = next.order.length;
  const capacity = Math.min(choices.capacity ?? next.brought ?? most, most);
  const box = inBox(next, capacity);
  return html`
    ${before && html`<${AsBefore} />`}
    <${From} next=${next} />
    <${Box} most=${most} capacity=${capacity} box=${box} stock=${next.stock} set=${(pieces) => set('capacity', pieces)} />
    <${Brought} next=${next} pieces=${box.pieces} booking=${booking} />
    <section class="plain no-print">
      <h2>What you expect</h2>
      <div class="fields">
        <${Choice} id="factor" name="factor" label="How busy it will be" value=${String(choices.factor ?? 100)} set=${(value) => set('factor', Number(value))} choices=${BUSY} />
        <${Choice} id="at_least" name="at_least" label="Of each at least" value=${String(choices.at_least ?? 0)} set=${(value) => set('at_least', Number(value))} choices=${AT_LEAST} />
      </div>
      <${Carry} value=${choices.carry ?? 0} set=${(amount) => set('carry', amount)} />
      ${next.from === 'guess' && html`<${Guess} value=${choices.guess} set=${set} />`}
    </section>
    ${next.days > 4 && !before && html`<${HowNear} booking=${booking} choices=${choices} />`}
    <${ToPack} booking=${booking} next=${next} isOfNow=${isOfNow} pieces=${box.pieces} />
  `;
}

// what it is known from, and how sure that is
function From({ next }) {
  const notes = next.notes.filter(({ rule }) => rule === 'mean_capped');
  const words = useWords(() => notesOf({ notes }), [JSON.stringify(notes)]);
  return html`
    <p class="lead" data-from=${next.from} data-days=${next.days} data-here=${next.here}>${fromInWords(next)} ${hoursInWords(next)}</p>
    ${words && notes.length > 0 && html`<ul class="notes">${words.map((text) => html`<li>${text}</li>`)}</ul>`}
    <${Unbought} unbought=${next.unbought} products=${next.products.filter(({ stock }) => stock).map(({ product }) => product)} />
  `;
}

function fromInWords({ from, days, here }) {
  if (from === 'guess') return 'No sale is recorded yet: this is your own guess, shared evenly. It gets better with each market day.';
  if (from === 'elsewhere')
    return `No day of this market is recorded. It is taken to be like the others, from ${countInWords(days, 'market day')}, and that is less sure.`;
  return `From ${countInWords(here, 'day')} of this market${days > here ? ` and ${days - here} of others` : ''}.`;
}

function hoursInWords({ hours, hours_from: from, market_days: days }) {
  const said = `${number(hours)} hours${days > 1 ? ` on ${days} days` : ''}`;
  if (from === 'said') return `Open ${said}.`;
  return from === 'usual' ? `Its hours are not set: taken as usual, ${said}.` : `Its hours are not set: taken as ${said}.`;
}

function Guess({ value = null, set }) {
  const [typed, type] = useState(value === null ? '' : String(value));
  const good = /^[1-9]\d{0,3}$/.test(typed);
  const save = useOnce(async () => good && set('guess', Number(typed)));
  return html`
    <form data-guess=${value ?? ''} onSubmit=${save}>
      ${value === null && html`<p class="lead">No sale at a market is recorded yet, so nothing is known. Say what you think; each market day makes it surer.</p>`}
      <div class="field"><label for="guess">Pieces you think will be wanted</label>
        <span class="control"><input id="guess" name="guess" inputmode="numeric" autocomplete="off" maxlength="4" value=${typed} onInput=${({ target }) => type(target.value.trim())}
          aria-describedby=${typed && !good ? 'guess-problem' : undefined} aria-invalid=${Boolean(typed) && !good} /></span>
        ${typed && !good && html`<p class="problem" id="guess-problem">A whole number of pieces, from 1 to 9999.</p>`}</div>
      <p><button type="submit" class=${value === null ? 'main' : ''} disabled=${!good}>Use this guess</button></p>
    </form>
  `;
}

function ToPack({ booking, next, isOfNow, pieces }) {
  const { route } = useLocation();
  const lines = next.products.map(({ product }, index) => ({ product, quantity: pieces[index] })).filter(({ quantity }) => quantity > 0);
  const all = lines.reduce((sum, { quantity }) => sum + quantity, 0);
  const before = planOf('pack', booking);
  const same = before && JSON.stringify(before.lines.map(({ product, quantity }) => ({ product, quantity }))) === JSON.stringify(lines);
  const pack = useOnce(async () => {
    const saved = `The packing list for ${nameOf('booking', recordById('booking', booking))} is saved`;
    const undo = async (back) => {
      // the list that stands there is not the one any more
      if ((await saying('Undone: the packing list is as it was', back)) && location.pathname === PACK) route('/review/next');
    };
    if (await saying(saved, () => packFor(booking, lines), undo)) route(PACK);
  });
  const archive = useOnce(() =>
    saying(
      'The packing list is archived',
      () => dropPlan(before.id),
      () => dropPlan(before.id, false),
    ),
  );
  return html`
    ${before && html`<p class="hint no-print" data-planned>${same ? 'The packing list says the same.' : 'There is a packing list with other numbers; a new one takes its place.'} <button type="button" class="chip" onClick=${archive}>Archive it</button></p>`}
    <div class="dock next-steps">
      <button type="button" onClick=${() => print()}>Print</button>
      ${
        same
          ? html`<a class="button main" href=${PACK} data-pack>Pack</a>`
          : html`<button type="button" class="main" data-pack=${all} disabled=${!all || !isOfNow} onClick=${pack}>Make the packing list, ${countInWords(all, 'piece')}</button>`
      }
    </div>
  `;
}

const number = (value) => value.toLocaleString(undefined, { maximumFractionDigits: 1 });
