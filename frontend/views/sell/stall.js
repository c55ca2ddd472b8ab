/* The stall: tiles to tap, the basket, and how it is paid. Two taps are a sale. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { nameOf } from '../../data/naming.js';
import { onRecords, recordById } from '../../data/records.js';
import { piecesAt } from '../../data/stock.js';
import { painted } from '../../data/painted.js';
import {
  basket,
  emptyBasket,
  foreseeNothing,
  foreseeTaps,
  goods,
  isSold,
  keepBasket,
  laidBack,
  priced,
  sell,
  takeBack,
  undo,
  whyNothing,
  withoutSold,
  withPieces,
} from '../../data/till.js';
import { ClockOff, say, saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';
import { Missing } from '../parts/way-back.js';
import { Basket } from './basket.js';
import { HowMany } from './how-many.js';
import { LastSale } from './last-sale.js';
import { MODES, More } from './more.js';
import { Tiles } from './tiles.js';

// so long a tap waits for its price, to be drawn once and not twice
const PRICE_IS_LATE_MS = 100;

export function Stall({ where, close }) {
  const tiles = useGoods();
  const till = useTill(where, tiles);
  const left = useFollowed(async () => {
    // an effect may come before the paint: the tiles can be tapped before it is known how many are left
    await painted();
    return piecesAt(where.place);
  }, [where.place]);
  const [mode, setMode] = useState('sell');
  const [asking, setAsking] = useState(null);
  const touched = useRef(null);
  const stand = useRef();
  useWakeLock();
  // drawn again only with what it shows
  const dock = useMemo(() => html`<${Basket} till=${till} goOn=${mode === 'swap' ? () => setMode('sell') : null} />`, [till.shown, mode]);
  const list = LISTS[mode];
  const put = (thing, pieces) => {
    touched.current = thing.key;
    till.change((made) => withPieces(made, thing, pieces, list));
  };
  const tap = (thing) => {
    if (list) put(thing, 1);
    else note(mode, where, thing).then((kept) => kept && setMode('sell'));
  };
  // what is held down is asked how many of, where more than one can be said
  const hold = list ? (thing, typed) => setAsking({ thing, typed }) : null;
  const answered = (pieces) => {
    setAsking(null);
    focusTile(asking.thing.key);
    if (pieces) put(asking.thing, pieces);
  };
  const empty = isEmpty(till.shown.made);
  useTileInSight(stand, touched, empty);
  // what the next one taps is sold again
  useEffect(() => {
    if (empty) setMode((now) => (now === 'swap' ? 'sell' : now));
  }, [empty]);
  return html`
    <div class="sell-stall" ref=${stand}>
      <div class="sell-stall-top">
        <h1>${nameOf('booking', recordById('booking', where.booking)) || 'Stall'}</h1>
        <a class="quiet" href="/sell/today">Today's sales</a>
      </div>
      <${ClockOff} />
      ${!tiles.length && html`<${Nothing} />`}
      ${
        mode !== 'sell' &&
        html`
        <p class="mode" role="status"><span>${MODES[mode].asks}</span>
          <button type="button" onClick=${() => setMode('sell')}>Done</button></p>
      `
      }
      <${Tiles} tiles=${tiles} left=${left} made=${till.shown.made} mode=${mode} tap=${tap} asked=${(thing) => note('asked-for', where, thing)} hold=${hold} />
      <${More} till=${till} where=${where} setMode=${setMode} close=${close} />
      <div class="dock sell-till">
        ${
          asking
            ? html`<${HowMany} key=${asking.thing.key} ...${asking} add=${answered} close=${() => answered(0)} />`
            : empty
              ? html`<${LastSale} last=${till.shown.last} forget=${till.forget} asks=${MODES[mode]?.asks} />`
              : dock
        }
      </div>
    </div>
  `;
}

// what can be sold, as another phone changed it meanwhile
function useGoods() {
  const [tiles, setTiles] = useState(goods);
  useEffect(
    () =>
      onRecords(() => {
        const now = goods();
        setTiles((before) => (JSON.stringify(now) === JSON.stringify(before) ? before : now));
      }),
    [],
  );
  return tiles;
}

const isEmpty = ({ lines, returned }) => !lines.length && !returned.length;
// where what is tapped goes; what is neither is noted piece by piece
const LISTS = { sell: 'lines', swap: 'returned' };

const tileOf = (key) => document.querySelector(`[data-product="${key}"]`);
const focusTile = (key) => tileOf(key)?.focus({ preventScroll: true });

// the dock grows with the first piece: the tile that was tapped stays in sight. Once all is paid, the keyboard is at the tiles again
function useTileInSight(stand, touched, empty) {
  const before = useRef(empty);
  useLayoutEffect(() => {
    const was = before.current;
    before.current = empty;
    const tile = was !== empty && touched.current && tileOf(touched.current);
    if (!tile) return;
    if (empty && document.activeElement === document.body) focusTile(touched.current);
    const till = stand.current.querySelector('.sell-till').getBoundingClientRect();
    const box = tile.getBoundingClientRect();
    const covered = till.left < box.right && box.bottom + GAP_PX - till.top;
    if (!empty && covered > 0) scrollBy(0, covered);
  }, [empty]);
}

const GAP_PX = 8;

const WHY_NOTHING = {
  none: 'There is nothing to sell yet. Name a size and its price to begin.',
  archived: 'All products are archived. Add what you sell now.',
  'not offered': 'No product is offered on the stall. Open one and tick “Offered on the stall”.',
};

/** Why there is nothing to sell, and what to do. */
export function Nothing() {
  const why = whyNothing();
  const [does, path] = why === 'not offered' ? ['Products', '/settings/product'] : ['Say what you sell', '/sell/goods'];
  return html`<div data-nothing=${why}><${Missing} kind="product" says=${WHY_NOTHING[why]} does=${does} path=${path} /></div>`;
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
  const back = (id) => saying(`${name}: taken back`, () => takeBack(kind, id));
  return saying(said, () => state(kind, fields), back);
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
    mine.price
      .then(show, (error) => {
        say(error.message, { bad: true });
        if (mine === now.current) change(() => (before === mine.made ? emptyBasket() : before));
      })
      .finally(() => clearTimeout(late));
  };
  useEffect(() => change((kept) => kept), []);
  // after the paint: what is shown now does not wait for it
  useEffect(() => {
    // what is being sold is no basket once that is kept
    if (!paying.current && !isSold(shown.made)) keepBasket(shown.made);
    foreseeTaps(where, shown.made, shown.price, tiles);
  }, [shown]);
  useEffect(() => foreseeNothing, []);
  const payFor = async (sold, payment, tendered) => {
    const told = await sold.price;
    if (!told) return;
    const way = payment === 'cash' ? told.cash.ways.find((one) => one.tendered === (tendered ?? told.cash.due)) : null;
    if (payment === 'cash' && !way) throw new Error('The total has just changed: look again');
    const { id, refund, amount } = await sell(where, sold.made, told, payment, way?.tendered ?? null);
    change((left) => withoutSold(left, sold.made), { id, refund, payment, way, amount, back: told.due < 0, made: sold.made });
  };
  // a second tap is no second sale
  const pay = useOnce(async (payment, tendered = null) => {
    paying.current = true;
    try {
      await payFor(now.current, payment, tendered);
    } catch (error) {
      say(error.message, { bad: true });
      // it was kept in another window, or before the store was lost: it is no basket any more
      if (isSold(now.current.made)) change(emptyBasket);
    }
    paying.current = false;
    keepBasket(now.current.made);
  });
  const forget = useOnce(async () => {
    const { id, refund, made } = now.current.last;
    if (await saying('Undone: the basket is back', () => undo(id, refund))) change((left) => laidBack(left, made), null);
  });
  // what another window sold is no basket here
  useEffect(() => onRecords(() => !paying.current && isSold(now.current.made) && change(emptyBasket)), []);
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
