/* The frame round every screen: top line, the places, and which address shows what. */
import { useEffect, useRef } from 'preact/hooks';
import { html } from 'htm/preact';
import { LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { BuyCalculator } from './buy/calculator.js';
import { BuyHome } from './buy/home.js';
import { Cloths } from './buy/cloths.js';
import { Pieces } from './buy/pieces.js';
import { ShoppingList } from './buy/shopping-list.js';
import { Checklist } from './make/checklist.js';
import { MakeHome } from './make/home.js';
import { Signature } from './make/signature.js';
import { Correct } from './settings/correct.js';
import { RecordList } from './settings/record-list.js';
import { RecordScreen } from './settings/record-screen.js';
import { Settings } from './settings/settings.js';
import { recall, remember } from '../data/store.js';
import { NoSuchScreen } from './parts/no-such-screen.js';
import { Notice } from './parts/notice.js';
import { UpdateOffer } from './parts/update-offer.js';

const PLACES = [
  { name: 'Buy', path: '/buy' },
  { name: 'Make', path: '/make' },
];

export function Frame() {
  return html`<${LocationProvider}><${Layout} /><//>`;
}

function Layout() {
  const { path } = useLocation();
  const main = useRef();
  useFocusOnNewScreen(main, path);
  useEffect(() => {
    if (path !== '/') remember('last-screen', path);
  }, [path]);
  return html`
    <a class="skip" href="#main">To the screen</a>
    <header class="top">
      <${WayBack} path=${path} />
      <a class="quiet" href="/settings" aria-current=${path === '/settings' ? 'page' : undefined}>Settings</a>
    </header>
    <${UpdateOffer} />
    <main id="main" tabindex="-1" ref=${main}>
      <${Router}>
        <${Route} path="/" component=${LastPlace} />
        <${Route} path="/buy" component=${BuyHome} />
        <${Route} path="/buy/list" component=${ShoppingList} />
        <${Route} path="/buy/pieces" component=${Pieces} />
        <${Route} path="/buy/cloths" component=${Cloths} />
        <${Route} path="/buy/:calculator" component=${BuyCalculator} />
        <${Route} path="/make" component=${MakeHome} />
        <${Route} path="/make/safe-cutting-checklist" component=${Checklist} />
        <${Route} path="/make/signed/:id" component=${Signature} />
        <${Route} path="/settings" component=${Settings} />
        <${Route} path="/settings/check/:id" component=${Correct} />
        <${Route} path="/settings/:kind" component=${RecordList} />
        <${Route} path="/settings/:kind/:id" component=${RecordScreen} />
        <${Route} default component=${NoSuchScreen} />
      <//>
    </main>
    <${Notice} />
    <nav class="places" aria-label="Places">
      ${PLACES.map((place) => html`<${Place} ...${place} at=${path} />`)}
    </nav>
  `;
}

// the app's own address opens where it was left
function LastPlace() {
  const { route } = useLocation();
  useEffect(() => route(recall('last-screen', '/buy'), true), []);
  return null;
}

function WayBack({ path }) {
  const place = [...PLACES, { name: 'Settings', path: '/settings' }].find((known) => path.startsWith(`${known.path}/`));
  if (place) return html`<a class="back" href=${place.path}>${place.name}</a>`;
  return html`<a class="brand" href="/buy">Boltfair</a>`;
}

function Place({ name, path, at }) {
  const here = at === path || at.startsWith(`${path}/`);
  return html`<a href=${path} aria-current=${here ? 'page' : undefined}>${name}</a>`;
}

// screen readers and keyboards start at the new screen, not at the old link
function useFocusOnNewScreen(main, path) {
  const first = useRef(true);
  useEffect(() => {
    const title = main.current.querySelector('h1')?.textContent;
    document.title = title ? `${title} · Boltfair` : 'Boltfair';
    if (!first.current) {
      main.current.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
    first.current = false;
  }, [path]);
}
