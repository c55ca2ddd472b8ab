/* A cash box: counted by notes and coins, blind at first; and what goes into it or out of it beside sales. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { dayInWords, timeInWords } from '../../data/naming.js';
import { cashUp, denominations, keepCashUp, keepMovement, typedFor, typeFor } from '../../data/reviewing.js';
import { syncSoon } from '../../data/sync.js';
import { keepFloat } from '../../data/till.js';
import { AmountForm, NOTHING_TYPED } from '../parts/amount-form.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { NotHeard, useNotHeard } from '../parts/not-heard.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed, useFollowing } from '../parts/use-records.js';
import { boxName, differenceInWords, Expected, reportOf } from './told.js';

const NOTHING_COUNTED = { counts: {}, told: false, reason: '' };
const NOTHING_MOVED = { ...NOTHING_TYPED, direction: 'taken out' };
const DIRECTIONS = { 'taken out': 'Taken out', 'paid in': 'Paid in' };
const OTHER_WAY = { 'taken out': 'paid in', 'paid in': 'taken out' };

// what is typed stays until it is kept, even if the app is killed; what is typed while that is being kept stays, too
function useTyped(what, where) {
  const [typed, setTyped] = useState(() => typedFor(what, where) ?? null);
  const latest = useRef(typed);
  const type = (next) => {
    latest.current = next;
    setTyped(next);
    typeFor(what, where, next);
  };
  return [typed, type, () => latest.current === typed && type(null)];
}

function useWhere({ day, box }) {
  return { day, box, booking: useLocation().query.booking ?? null };
}

export function CashUp(address) {
  const where = useWhere(address);
  const [typed, type] = useTyped('count', where);
  const values = useFollowed(denominations, []);
  useEffect(syncSoon, []);
  const [told, isOfNow] = useFollowing(() => cashUp(where, typed?.counts), [where.day, where.box, JSON.stringify(typed?.counts)]);
  const head = html`<h1>${boxName(where.box)}: cash-up</h1>`;
  if (!told || !values) return head;
  const screen = { where, told, typed: typed ?? NOTHING_COUNTED, type };
  if (!typed && told.kept) return html`${head}<${Kept} ...${screen} />`;
  return html`${head}${typed?.told && isOfNow && told.counted_total !== null ? html`<${Told} ...${screen} />` : html`<${Counting} ...${screen} values=${values} />`}`;
}

function Counting({ where, told, typed, type, values }) {
  const totals = new Map(told.counted.map((row) => [row.value, row.total]));
  const set = (value, number) => type({ ...typed, counts: { ...typed.counts, [value]: number } });
  return html`
    <p class="lead">${dayInWords(where.day)}. Count everything; the expected total comes after.</p>
    <${Started} where=${where} told=${told} />
    <ul class="lines review-money" aria-label="Notes and coins">
      ${values.map((value) => html`<${Coin} key=${value} value=${value} count=${typed.counts[value]} total=${totals.get(value)} set=${(number) => set(value, number)} />`)}
    </ul>
    ${typed.again && html`<p><button type="button" class="quiet" data-keep-last onClick=${() => type(null)}>Keep the last count</button></p>`}
    <div class="dock review-counted">
      <p class="total"><span>Counted</span> <output class="number" data-counted=${told.counted_total ?? 0}>${showMoney(told.counted_total ?? 0)}</output></p>
      <button type="button" class="main" data-all onClick=${() => type({ ...typed, told: true })}>Done counting</button>
    </div>
  `;
}

function Coin({ value, count, total, set }) {
  return html`
    <li data-coin=${value}>
      <strong class="number">${showMoney(value)}</strong>
      <${Stepper} name=${showMoney(value)} value=${count} set=${set} />
      <span class="number">${total ? showMoney(total) : ''}</span>
    </li>
  `;
}

// what was there at the start, and what went in or out beside sales: both can still be said
function Started({ where, told }) {
  const [typed, type, isKept] = useTyped('float', where);
  const keep = async (amount) => {
    if (await saying(`${showMoney(amount)} float recorded`, () => keepFloat(where, amount))) isKept();
  };
  const moved = [
    ['paid in', told.paid_in],
    ['taken out', told.taken_out],
  ]
    .filter(([, amount]) => amount)
    .map(([words, amount]) => `${showMoney(amount)} ${words}`);
  return html`
    <details class="more">
      <summary>${showMoney(told.float)} float${told.float_counted ? '' : ', as usual'}</summary>
      <${AmountForm} main name="float" label="Float at the start" typed=${typed ?? NOTHING_TYPED} type=${type} keep=${keep} />
    </details>
    <ul class="lines"><li><span>${moved.length ? moved.join(', ') : 'Nothing paid in or taken out'}</span>
      <a class="button" href=${reportOf(where.day, where.booking, `/moved/${where.box}`)}>In or out</a></li></ul>
  `;
}

function Told({ where, told, typed, type }) {
  const keep = useOnce(() => saying('The cash-up is recorded', () => keepCashUp(where, told, typed.reason.trim()).then(() => type(null))));
  return html`
    <${Difference} told=${told} />
    <div class="opening">
      ${
        told.difference !== 0 &&
        html`<div class="field">
        <label for="cash-reason">Why it differs, if you know</label>
        <span class="control"><input id="cash-reason" name="reason" maxlength="200" value=${typed.reason} onInput=${({ target }) => type({ ...typed, reason: target.value })} /></span>
      </div>`
      }
      <button type="button" class="main" data-keep onClick=${keep}>Record the cash-up</button>
      <button type="button" onClick=${() => type({ ...typed, told: false })}>Back to the count</button>
    </div>
    <${Counted} told=${told} />
  `;
}

function Kept({ where, told, type }) {
  return html`
    <p class="lead">${dayInWords(where.day)}, counted at ${timeInWords(told.kept.at)} <${KeptState} id=${told.kept.id} /></p>
    <${Difference} told=${told} reason=${told.kept.reason} />
    ${told.since !== 0 && html`<p class="hint" data-since=${told.since}>${showMoney(Math.abs(told.since))} ${told.since > 0 ? 'came in' : 'went out'} after that count.</p>`}
    <div class="next-steps">
      <a class="button main" href=${reportOf(where.day, where.booking)}>The day's report</a>
      <button type="button" onClick=${() => type({ ...NOTHING_COUNTED, again: true })}>Count it again</button>
    </div>
    <${Counted} told=${told} />
  `;
}

// what a phone that was not heard took or gave is not known: that is no alarm
function Difference({ told, reason }) {
  const phones = useNotHeard(told.kept?.at);
  const right = told.difference === 0;
  return html`
    <p class="verdict" role="status" data-allowed=${right || (phones.length ? undefined : false)}><strong data-difference=${told.difference}>${differenceInWords(told.difference)}</strong>${!right && phones.length > 0 && ' as far as this phone knows'}${reason && html` <small>${reason}</small>`}</p>
    ${!right && html`<${NotHeard} phones=${phones} />`}
    <div class="results"><div class="output"><${Expected} told=${told} /></div>
      <div class="output said"><span class="label">counted</span><span class="number" data-counted=${told.counted_total}>${showMoney(told.counted_total)}</span></div></div>
  `;
}

function Counted({ told }) {
  return html`<ul class="lines">${told.counted
    .filter(({ count }) => count)
    .map(
      (row) => html`
    <li><span>${row.count} × ${showMoney(row.value)}</span><span class="number">${showMoney(row.total)}</span></li>`,
    )}</ul>`;
}

/** Cash that goes in or out beside sales: lunch, more change. */
export function CashMoved(address) {
  const where = useWhere(address);
  const [kept, type, isKept] = useTyped('moved', where);
  const told = useFollowed(() => cashUp(where), [where.day, where.box]);
  const typed = kept ?? NOTHING_MOVED;
  const keep = async (amount, reason) => {
    const { direction } = typed;
    // a mistake is answered by the same the other way
    const back = () => saying('Taken back', () => keepMovement(where, OTHER_WAY[direction], amount, `taken back: ${reason}`));
    if (await saying(`${showMoney(amount)} ${direction}, recorded`, () => keepMovement(where, direction, amount, reason), back)) isKept();
  };
  return html`
    <h1>${boxName(where.box)}: in or out</h1>
    <p class="lead">${dayInWords(where.day)}. What goes into the box or out of it, and is no sale.</p>
    <div class="start-from" role="group" aria-label="Which way">
      ${Object.keys(DIRECTIONS).map((way) => html`<button type="button" class="chip" aria-pressed=${typed.direction === way} onClick=${() => type({ ...typed, direction: way })}>${DIRECTIONS[way]}</button>`)}
    </div>
    <${AmountForm} main name="moved" label="How much" word="What for" typed=${typed} type=${type} keep=${keep} />
    ${
      told?.movements.length > 0 &&
      html`<section class="plain">
      <h2>That day</h2>
      <ul class="lines">${told.movements.map(
        (row) => html`<li data-moved=${row.amount}>
        <span>${row.reason || DIRECTIONS[row.direction]} <small>${DIRECTIONS[row.direction]}</small></span>
        <span class="number">${showMoney(row.direction === 'paid in' ? row.amount : -row.amount)}</span><${KeptState} id=${row.id} /></li>`,
      )}</ul>
    </section>`
    }
  `;
}
