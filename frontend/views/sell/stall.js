/* The stall: tiles to tap, the basket, and how it is paid. Two taps are a sale. */
import { Component } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { nameOf } from '../../data/naming.js';
import { painted, recordById } from '../../data/records.js';
import { stock } from '../../data/stock.js';
import { basket, emptyBasket, foreseeNothing, foreseeTaps, goods, keepBasket, priced, sell, undo, withoutSold, withPieces } from '../../data/till.js';
import { showMoney } from '../parts/money.js';
import { say, saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { Basket } from './basket.js';
import { LastSale } from './last-sale.js';
import { MODES, More } from './more.js';

// so long a tap waits for its price, to be drawn once and not twice
const PRICE_IS_LATE_MS = 100;

export function Stall({ where, close }) {
  const [tiles] = useState(goods);
  const till = useTill(where, tiles);
  const left = useFollowed(async () => {
    // an effect may come before the paint: the tiles can be tapped before it is known how many are left
    await painted();
    const here = (await stock()).filter((row) => row.place === where.place && row.product);
    return Object.fromEntries(here.map((row) => [row.product, row.quantity]));
  }, [where.place]);
  const [mode, setMode] = useState('sell');
  useWakeLock();
  // drawn again only with what it shows
  const dock = useMemo(() => html`<${Basket} till=${till} />`, [till.shown]);
  const tap = ({ target }) => {
    const { product, asked } = target.closest('button')?.dataset ?? {};
    const thing = tiles.find(({ key }) => key === (product ?? asked));
    if (asked) note('asked-for', where, thing);
    else if (thing && mode === 'sell') till.change((made) => withPieces(made, thing, 1));
    else if (thing && mode === 'swap') till.change((made) => withPieces(made, thing, 1, 'returned'));
    else if (thing) note(mode, where, thing).then((kept) => kept && setMode('sell'));
  };
  return html`
    <div class="stall">
      <div class="stall-top">
        <h1>${nameOf('booking', recordById('booking', where.booking)) || 'Stall'}</h1>
        <a class="quiet" href="/sell/today">Today's sales</a>
      </div>
      ${mode !== 'sell' && html`
        <p class="mode" role="status"><span>${MODES[mode].asks}</span>
          <button type="button" onClick=${() => setMode('sell')}>Done</button></p>
      `}
      <ul class="tiles" data-mode=${mode} onClick=${tap}>
        ${tiles.map((thing) => html`<${Tile} key=${thing.key} thing=${thing} held=${heldOf(left, thing)} taken=${piecesOf(till.shown.made, thing)} />`)}
      </ul>
      <${More} till=${till} where=${where} setMode=${setMode} close=${close} />
      <div class="dock till">
        ${isEmpty(till.shown.made) ? html`<${LastSale} last=${till.shown.last} forget=${till.forget} />` : dock}
      </div>
    </div>
  `;
}

const isEmpty = ({ lines, returned }) => !lines.length && !returned.length;
const heldOf = (left, { product }) => (left && product ? (left[product] ?? 0) : null);
const piecesOf = (made, { key }) => made.lines.find((line) => line.key === key)?.quantity ?? 0;

// a tap changes one tile, and only that one is drawn again
class Tile extends Component {
  shouldComponentUpdate({ held, taken }) {
    return held !== this.props.held || taken !== this.props.taken;
  }

  render({ thing, held, taken }) {
    const pieces = held === null ? null : held - taken;
    const out = pieces !== null && pieces <= 0;
    const asks = out && !taken;
    const price = showMoney(thing.price);
    return html`
      <li class="tile" data-out=${out || undefined} data-asks=${asks || undefined}>
        <button type="button" data-product=${thing.key}
          aria-label=${`${thing.name}, ${price}${pieces === null ? '' : `, ${Math.max(pieces, 0)} left`}${taken ? `, ${taken} in the basket` : ''}`}>
          <strong>${thing.name}</strong>
          <span><span class="number">${price}</span>
            ${pieces !== null && html` <small data-left=${pieces}>${out ? 'sold out' : `${pieces} left`}</small>`}</span>
          ${taken > 0 && html`<span class="count number" aria-hidden="true">${taken}</span>`}
        </button>
        ${asks && html`<button type="button" class="asked" data-asked=${thing.key} aria-label=${`${thing.name}: asked for, had none`}>asked for</button>`}
      </li>
    `;
  }
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
function useTill(where, tiles) {
  // what is shown: a basket together with its price
  const [shown, setShown] = useState(() => ({ made: basket(), price: null, last: null }));
  // the basket as it is now, and a promise of its price
  const now = useRef(shown);
  const paying = useRef(false);
  const change = (how, last = now.current.last) => {
    const before = now.current.made;
    const mine = { made: how(before), last };
    now.current = mine;
    mine.price = priced(mine.made);
    const show = (price) => mine === now.current && setShown({ made: mine.made, price, last });
    const late = setTimeout(show, PRICE_IS_LATE_MS, null);
    mine.price.then(show, (error) => {
      say(error.message, { bad: true });
      if (mine === now.current) change(() => (before === mine.made ? emptyBasket() : before));
    }).finally(() => clearTimeout(late));
  };
  useEffect(() => change((kept) => kept), []);
  // after the paint: what is shown now does not wait for it
  useEffect(() => {
    // what is being sold is no basket once that is kept
    if (!paying.current) keepBasket(shown.made);
    foreseeTaps(where, shown.made, shown.price, tiles);
  }, [shown]);
  useEffect(() => foreseeNothing, []);
  const payFor = async (sold, payment, tendered) => {
    const told = await sold.price;
    if (!told) return;
    const way = payment === 'cash' ? told.cash.ways.find((one) => one.tendered === (tendered ?? told.cash.due)) : null;
    if (payment === 'cash' && !way) throw new Error('The total has just changed: look again');
    const { id, amount } = await sell(where, sold.made, told, payment, way?.tendered ?? null);
    change((left) => withoutSold(left, sold.made), { id, payment, way, amount });
  };
  // a second tap is no second sale
  const pay = useOnce(async (payment, tendered = null) => {
    paying.current = true;
    try {
      await payFor(now.current, payment, tendered);
    } catch (error) {
      say(error.message, { bad: true });
    }
    paying.current = false;
    keepBasket(now.current.made);
  });
  const forget = async () => {
    await saying('That sale never happened', () => undo(shown.last.id, 'undone at once'));
    change((made) => made, null);
  };
  return { shown, change, pay, forget };
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
