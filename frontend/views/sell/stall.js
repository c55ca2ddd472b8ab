/* The stall: tiles to tap, the basket, and how it is paid. Two taps are a sale. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { nameOf } from '../../data/naming.js';
import { onRecords, recordById } from '../../data/records.js';
import { stock } from '../../data/stock.js';
import { basket, emptyBasket, goods, keepBasket, priced, sell, undo, withoutSold, withPieces } from '../../data/till.js';
import { showMoney } from '../parts/money.js';
import { say, saying } from '../parts/notice.js';
import { Basket } from './basket.js';
import { LastSale } from './last-sale.js';
import { MODES, More } from './more.js';

export function Stall({ where, close }) {
  const [tiles] = useState(goods);
  const till = useTill(where);
  const left = useStock(where.place);
  const [mode, setMode] = useState('sell');
  useWakeLock();
  const tap = (thing) => {
    if (mode === 'sell') till.change(withPieces(till.made, thing, 1));
    else if (mode === 'swap') till.change(withPieces(till.made, thing, 1, 'returned'));
    else note(mode, where, thing).then((kept) => kept && setMode('sell'));
  };
  return html`
    <div class="stall-top">
      <h1>${nameOf('booking', recordById('booking', where.booking)) || 'Stall'}</h1>
      <a class="quiet" href="/sell/today">Today's sales</a>
    </div>
    ${mode !== 'sell' && html`
      <p class="mode" role="status"><span>${MODES[mode].asks}</span>
        <button type="button" onClick=${() => setMode('sell')}>Done</button></p>
    `}
    <ul class="tiles" data-mode=${mode}>
      ${tiles.map((thing) => html`<${Tile} key=${thing.key} thing=${thing} left=${left} made=${till.made} tap=${tap} where=${where} />`)}
    </ul>
    <${More} till=${till} where=${where} setMode=${setMode} close=${close} />
    <div class="dock till">
      ${till.made.lines.length || till.made.returned.length
        ? html`<${Basket} till=${till} />`
        : html`<${LastSale} last=${till.last} forget=${till.forget} />`}
    </div>
  `;
}

function Tile({ thing, left, made, tap, where }) {
  const inBasket = made.lines.find((line) => line.key === thing.key)?.quantity ?? 0;
  const pieces = left && thing.product ? (left[thing.product] ?? 0) - inBasket : null;
  const out = pieces !== null && pieces <= 0;
  const none = out && !inBasket;
  return html`
    <li class="tile" data-out=${out || undefined}>
      <button type="button" data-product=${thing.key} onClick=${() => tap(thing)}
        aria-label=${`${thing.name}, ${showMoney(thing.price)}${pieces === null ? '' : `, ${Math.max(pieces, 0)} left`}${inBasket ? `, ${inBasket} in the basket` : ''}`}>
        <strong>${thing.name}</strong>
        <span><span class="number">${showMoney(thing.price)}</span>
          ${pieces !== null && html` <small data-left=${pieces}>${out ? 'sold out' : `${pieces} left`}</small>`}</span>
        ${inBasket > 0 && html`<span class="count number" aria-hidden="true">${inBasket}</span>`}
      </button>
      ${none && html`<button type="button" class="asked" data-asked=${thing.key} aria-label=${`${thing.name}: asked for, had none`}
        onClick=${() => note('asked-for', where, thing)}>asked for</button>`}
    </li>
  `;
}

// one tap that is no sale: somebody asked, or a piece leaves without money
function note(mode, { booking, place, day }, { name, product = null, size = null }) {
  const facts = {
    'asked-for': ['asked-for', { day, booking, place, product, size }, `${name}: asked for, noted`],
    spoilt: ['set-aside', { day, place, product, quantity: 1, reason: 'spoilt' }, `${name}: one set aside as spoilt`],
    given: ['set-aside', { day, place, product, quantity: 1, reason: 'given' }, `${name}: one given away`],
    lost: ['set-aside', { day, place, product, quantity: 1, reason: 'lost' }, `${name}: one lost`],
  };
  const [kind, fields, said] = facts[mode];
  if (kind === 'set-aside' && !product) {
    say('Tap the cloth it was: a size alone is not set aside', { bad: true });
    return Promise.resolve(null);
  }
  return saying(said, () => state(kind, fields));
}

// the basket, what it comes to, and the sale kept last
function useTill(where) {
  const [made, setMade] = useState(basket);
  const [price, setPrice] = useState(null);
  const [last, setLast] = useState(null);
  // the basket as it is now, and its price once it is there
  const now = useRef({ made, price: null });
  const paying = useRef(false);
  const change = (next) => {
    const before = now.current.made;
    const mine = { made: next, price: priced(next) };
    now.current = mine;
    setMade(next);
    keepBasket(next);
    mine.price.then(
      (told) => mine === now.current && setPrice(told),
      (error) => {
        say(error.message, { bad: true });
        if (mine === now.current) change(before === next ? emptyBasket() : before);
      },
    );
  };
  useEffect(() => change(made), []);
  const pay = async (payment, tendered = null) => {
    // a second tap is no second sale
    if (paying.current) return;
    paying.current = true;
    try {
      await payFor(now.current, payment, tendered);
    } catch (error) {
      say(error.message, { bad: true });
    } finally {
      paying.current = false;
    }
  };
  const payFor = async (sold, payment, tendered) => {
    const told = await sold.price;
    if (!told) return;
    const way = payment === 'cash' ? told.cash.ways.find((one) => one.tendered === (tendered ?? told.cash.due)) : null;
    if (payment === 'cash' && !way) throw new Error('The total has just changed: look again');
    const { booking, place, box, day } = where;
    const at = { booking, place, box: payment === 'cash' ? box : null, day };
    const { id, amount } = await sell(at, sold.made, told, payment, way?.tendered ?? null);
    setLast({ id, payment, way, amount });
    change(withoutSold(now.current.made, sold.made));
  };
  const forget = async () => {
    await saying('That sale never happened', () => undo(last.id, 'undone at once'));
    setLast(null);
  };
  return { made, price, last, change, pay, forget };
}

// pieces left here by product, read again whenever something was kept or came
function useStock(place) {
  const [left, setLeft] = useState(null);
  useEffect(() => {
    const read = async () => {
      const here = (await stock()).filter((row) => row.place === place && row.product);
      setLeft(Object.fromEntries(here.map((row) => [row.product, row.quantity])));
    };
    read();
    return onRecords(read);
  }, [place]);
  return left;
}

// the screen stays on while somebody is selling, where the browser can do that
function useWakeLock() {
  useEffect(() => {
    let lock = null;
    const take = async () => {
      if (document.visibilityState === 'visible') lock = await navigator.wakeLock?.request('screen').catch(() => null);
    };
    take();
    document.addEventListener('visibilitychange', take);
    return () => {
      document.removeEventListener('visibilitychange', take);
      lock?.release();
    };
  }, []);
}
