/* The stall: tiles to tap, the basket, and how it is paid. Two taps are a sale. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { stock } from '../../data/stock.js';
import { basket, emptyBasket, goods, keepBasket, priced, sell, undo, withPieces } from '../../data/till.js';
import { showMoney } from '../parts/money.js';
import { say, saying } from '../parts/notice.js';
import { Basket } from './basket.js';
import { LastSale } from './last-sale.js';
import { MODES, More } from './more.js';

export function Stall({ where, close }) {
  const [tiles] = useState(goods);
  const till = useTill(where);
  const left = useStock(where.place, till.last);
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
  const pricing = useRef(null);
  const change = (next) => {
    setMade(next);
    keepBasket(next);
    const mine = priced(next);
    pricing.current = mine;
    mine.then((told) => mine === pricing.current && setPrice(told));
  };
  useEffect(() => change(made), []);
  const pay = async (payment, way = null) => {
    const told = await pricing.current;
    if (!told) return;
    const { booking, place, box, day } = where;
    const at = { booking, place, box: payment === 'cash' ? box : null, day };
    try {
      const id = await sell(at, made, told, payment, way?.tendered ?? null);
      setLast({ id, payment, way, amount: payment === 'none' ? 0 : payment === 'cash' ? told.cash.due : told.total, at: Date.now() });
      change(emptyBasket());
    } catch (error) {
      say(error.message, { bad: true });
    }
  };
  const forget = async () => {
    await saying('That sale never happened', () => undo(last.id, 'undone at once'));
    setLast(null);
  };
  return { made, price, last, change, pay, forget };
}

// pieces left here by product, read again after each sale
function useStock(place, last) {
  const [left, setLeft] = useState(null);
  useEffect(() => {
    let current = true;
    stock().then((rows) => {
      const here = rows.filter((row) => row.place === place && row.product);
      if (current) setLeft(Object.fromEntries(here.map((row) => [row.product, row.quantity])));
    });
    return () => {
      current = false;
    };
  }, [place, last]);
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
