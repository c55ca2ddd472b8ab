/* Which address shows what. A screen's module is loaded when it is first opened. */
import { useLayoutEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { isServed } from '../data/served.js';

/** The places in the order of the work. */
export const PLACES = [
  { name: 'Buy', path: '/buy' },
  { name: 'Make', path: '/make' },
  { name: 'Count', path: '/count' },
  { name: 'Sell', path: '/sell' },
  { name: 'Review', path: '/review' },
];

// what each module loaded later needs besides, as the server lists it: all of it loads at once and not one import after the other
const NEEDED = JSON.parse(document.getElementById('modules').textContent);

/** Every screen: its address, the component that shows it, and the module of that. */
export const SCREENS = [
  screen('/start', 'Start', '/views/first/start.js'),
  screen('/buy', 'BuyHome', '/views/buy/home.js'),
  screen('/buy/list', 'ShoppingList', '/views/buy/shopping-list.js'),
  screen('/buy/pieces', 'Pieces', '/views/buy/pieces.js'),
  screen('/buy/cloths', 'Cloths', '/views/buy/cloths.js'),
  screen('/buy/plan', 'Plan', '/views/buy/plan.js'),
  screen('/buy/plan/compare', 'ComparePlan', '/views/buy/compare-plan.js'),
  screen('/buy/list/:line', 'LineLayout', '/views/buy/line-layout.js'),
  screen('/buy/purchases', 'Purchases', '/views/buy/purchases.js'),
  screen('/buy/purchase/:line', 'Purchase', '/views/buy/purchase.js'),
  ...screensIn('/views/buy/calculators/', '/buy/'),
  screen('/make', 'MakeHome', '/views/make/home.js'),
  screen('/make/safe-cutting-checklist', 'Checklist', '/views/make/checklist.js'),
  screen('/make/cutting', 'Cutting', '/views/make/cutting.js'),
  screen('/make/cutting/layout', 'Layout', '/views/make/layout.js'),
  screen('/make/cutting/steps', 'Steps', '/views/make/steps.js'),
  screen('/make/remnant', 'Remnant', '/views/make/remnant.js'),
  screen('/make/remnant/steps', 'RemnantSteps', '/views/make/steps.js'),
  screen('/make/thread', 'Thread', '/views/make/thread.js'),
  screen('/make/times', 'Times', '/views/make/times.js'),
  screen('/make/cuts', 'Cuts', '/views/make/cuts.js'),
  screen('/make/cuts/:id', 'CutMade', '/views/make/cut-made.js'),
  screen('/make/batches', 'Batches', '/views/make/batches.js'),
  screen('/make/batches/new', 'StartBatch', '/views/make/start-batch.js'),
  screen('/make/batches/:id', 'Batch', '/views/make/batch.js'),
  screen('/make/batches/:id/change', 'ChangeBatch', '/views/make/change-batch.js'),
  screen('/make/batches/:id/sample', 'Sample', '/views/make/sample.js'),
  screen('/make/batches/:id/finished', 'Finished', '/views/make/finished.js'),
  screen('/make/signed/:id', 'Signature', '/views/make/signature.js'),
  screen('/count', 'CountHome', '/views/count/home.js'),
  screen('/count/close', 'CloseCount', '/views/count/close.js'),
  screen('/count/closed/:id', 'ClosedCount', '/views/count/closed.js'),
  screen('/count/pack', 'Pack', '/views/count/pack.js'),
  screen('/count/stock', 'WhatIsWhere', '/views/count/stock.js'),
  screen('/sell', 'SellHome', '/views/sell/home.js'),
  screen('/sell/goods', 'Goods', '/views/sell/goods.js'),
  screen('/sell/today', 'SalesToday', '/views/sell/today.js'),
  screen('/sell/sale/:id', 'Sale', '/views/sell/sale.js'),
  screen('/sell/refund', 'GiveBack', '/views/sell/refund.js'),
  screen('/review', 'ReviewHome', '/views/review/home.js'),
  screen('/review/costs', 'Costs', '/views/review/costs.js'),
  screen('/review/price', 'Price', '/views/review/price.js'),
  screen('/review/next', 'NextMarket', '/views/review/next.js'),
  screen('/review/sew', 'Sew', '/views/review/sew.js'),
  screen('/review/expenses', 'Expenses', '/views/review/expenses.js'),
  screen('/review/expense/new', 'Expense', '/views/review/expenses.js'),
  screen('/review/markets', 'Markets', '/views/review/markets.js'),
  screen('/review/markets/:booking', 'BookingResult', '/views/review/booking.js'),
  screen('/review/year', 'Year', '/views/review/year.js'),
  screen('/review/:day', 'DayReport', '/views/review/day.js'),
  screen('/review/:day/cash/:box', 'CashUp', '/views/review/cash.js'),
  screen('/review/:day/moved/:box', 'CashMoved', '/views/review/cash.js'),
  screen('/settings', 'Settings', '/views/settings/settings.js'),
  screen('/settings/check/:id', 'Correct', '/views/settings/correct.js'),
  screen('/settings/:kind', 'RecordList', '/views/settings/record-list.js'),
  screen('/settings/:kind/:id', 'RecordScreen', '/views/settings/record-screen.js'),
];

/** What an address that leads nowhere shows. */
export const NOWHERE = screen(null, 'NoSuchScreen', '/views/parts/no-such-screen.js');

const loaded = new Map();

/** Load the screen of an address, so that it is there when it is shown. */
export async function loadScreen(path) {
  const shows = ({ path: address }) => new RegExp(`^${address.replace(/:\w+/g, '[^/]+')}$`).test(path);
  const { module } = SCREENS.find(shows) ?? NOWHERE;
  await load(module);
}

/** Load the other screens of the place of an address, one by one, so that none of them is waited for later. */
export async function loadScreensBeside(path) {
  const placeOf = (address) => address.split('/')[1];
  for (const screen of SCREENS.filter((screen) => placeOf(screen.path) === placeOf(path))) await load(screen.module);
}

/** Load the screen that a link leads to as soon as a finger is on it. */
export function loadAtTouch() {
  addEventListener('pointerdown', ({ target }) => {
    const link = target.closest('a[href^="/"]');
    // what fails here is told where the screen is shown
    if (link) loadScreen(link.pathname).catch(() => {});
  });
}

async function load(module) {
  if (loaded.has(module)) return;
  preload(module);
  loaded.set(module, await import(module));
}

function preload(module) {
  const links = (NEEDED[module] ?? []).map((href) => Object.assign(document.createElement('link'), { rel: 'modulepreload', href }));
  document.head.append(...links);
}

// a folder in which each module is the screen of what it is called after
function screensIn(folder, place) {
  const modules = Object.keys(NEEDED).filter((module) => module.startsWith(folder));
  return modules.map((module) => screen(module.replace(folder, place).replace(/\.js$/, ''), 'Screen', module));
}

function screen(path, name, module) {
  function Loaded(props) {
    const [, again] = useState(0);
    const [isMissing, miss] = useState(false);
    const open = () =>
      load(module).then(
        () => again(1),
        () => miss(true),
      );
    useLayoutEffect(() => {
      if (!loaded.has(module)) open();
    }, []);
    // browsers remember which script could not be loaded: once it can be, only the page anew asks for it
    const openAgain = async () => {
      await open();
      if (!loaded.has(module) && (await isServed(module))) location.reload();
    };
    useLayoutEffect(() => {
      if (!isMissing) return undefined;
      addEventListener('online', openAgain);
      return () => removeEventListener('online', openAgain);
    }, [isMissing]);
    const Screen = loaded.get(module)?.[name];
    // another address is another screen: nothing of the one left is shown there, nor overtakes what is typed
    if (Screen) return html`<${Screen} key=${props.path} ...${props} />`;
    return isMissing ? html`<${NotHere} again=${openAgain} />` : null;
  }
  return { path, module, component: Loaded };
}

// on a first visit the signal may go before all is kept
const NotHere = ({ again }) => html`
  <h1>This screen is not on the phone yet</h1>
  <p class="problem" role="alert">It is loaded again by itself once there is a signal. Boltfair is not yet saved here as a whole; once it is, every screen opens without one. What you recorded is safe.</p>
  <p class="next-steps"><button type="button" class="main" onClick=${again}>Try again</button></p>
`;
