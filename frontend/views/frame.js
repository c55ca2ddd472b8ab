/* The frame round every screen: top line, the places, and which address shows what. */
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { rememberScreen } from '../data/preferences.js';
import { dropInvented } from '../data/store/invented-year.js';
import { invented } from '../data/store/which.js';
import { NOWHERE, PLACES, SCREENS } from './screens.js';
import { Notice } from './parts/notice.js';
import { backTo } from './parts/way-back.js';

export function Frame() {
  return html`<${LocationProvider}><${Layout} /><//>`;
}

function Layout() {
  const { path, query } = useLocation();
  const main = useRef();
  useTitleOfScreen(main);
  useFocusOnNewScreen(main, path);
  useEffect(() => rememberScreen(path), [path]);
  useEffect(followKeyboard, []);
  return html`
    <a class="skip" href="#main">To the screen</a>
    ${invented && html`<${InventedYear} />`}
    <header class="top">
      <${WayBack} path=${path} back=${backTo(query, null)} />
      <a class="quiet" href="/settings" aria-current=${path === '/settings' ? 'page' : undefined}>Settings</a>
    </header>
    <${Offer} />
    <main id="main" tabindex="-1" ref=${main}>
      <${ToLookAt} path=${path} />
      <${Router}>
        ${SCREENS.map(({ path: address, component }) => html`<${Route} path=${address} component=${component} />`)}
        <${Route} default component=${NOWHERE.component} />
      <//>
    </main>
    <${Notice} />
    <nav class="places" aria-label="Places">
      ${PLACES.map((place) => html`<${Place} ...${place} at=${path} />`)}
    </nav>
  `;
}

// an iPhone's keyboard lies on the page and leaves it as tall as it was: what sticks to the bottom is told how much it hides
function followKeyboard() {
  const view = window.visualViewport;
  const follow = () => {
    // what is magnified by two fingers is no keyboard
    const hidden = view.scale === 1 ? Math.max(0, Math.round(innerHeight - view.height - view.offsetTop)) : 0;
    document.documentElement.style.setProperty('--hidden-below', `${hidden}px`);
  };
  // and it shows what is pressed only where touches are listened to
  addEventListener('touchstart', () => {}, { passive: true });
  view.addEventListener('resize', follow);
  view.addEventListener('scroll', follow);
}

function InventedYear() {
  const leave = async () => {
    await dropInvented();
    location.replace('/start');
  };
  return html`
    <aside class="invented" aria-label="Invented year" data-invented>
      <span><strong>Invented year</strong> · nothing here is yours, none of it is sent</span>
      <button type="button" onClick=${leave}>Leave</button>
    </aside>
  `;
}

// comes after the first paint, as its scripts do
function Offer() {
  const part = useLater(true, () => import('./parts/update-offer.js'));
  return part && html`<${part.UpdateOffer} />`;
}

// said where records are added up
const ADDS_UP = /^\/(count|review|sell\/today|make\/cuts)(\/|$)/;

function ToLookAt({ path }) {
  const wanted = ADDS_UP.test(path);
  const part = useLater(wanted, () => import('/views/parts/look-at.js'));
  return wanted && part && html`<${part.LookAt} reviewing=${path.startsWith('/review')} />`;
}

// what a lost signal keeps away on a first visit comes with the next one
function useLater(wanted, load) {
  const [part, show] = useState(null);
  useEffect(() => {
    const begin = () => load().then(show, () => addEventListener('online', begin, { once: true }));
    if (wanted) begin();
  }, [wanted]);
  return part;
}

function WayBack({ path, back }) {
  const inside = (address, known) => address === known.path || address.startsWith(`${known.path}/`);
  const places = [...PLACES, { name: 'Settings', path: '/settings' }];
  const from = back && places.find((known) => inside(back.split('?')[0], known));
  if (from) return html`<a class="back" href=${back}>${from.name}</a>`;
  const place = places.find((known) => path !== known.path && inside(path, known));
  if (place) return html`<a class="back" href=${place.path}>${place.name}</a>`;
  return html`<a class="brand" href="/start">Boltfair</a>`;
}

function Place({ name, path, at }) {
  const here = at === path || at.startsWith(`${path}/`);
  return html`<a href=${path} aria-current=${here ? 'page' : undefined}>${name}</a>`;
}

// a screen may come, or know what it is called, later than its address
function useTitleOfScreen(main) {
  useEffect(() => {
    const follow = () => {
      const title = main.current.querySelector('h1')?.textContent;
      const told = title ? `${title} · Boltfair` : 'Boltfair';
      if (document.title !== told) document.title = told;
    };
    follow();
    const watching = new MutationObserver(follow);
    watching.observe(main.current, { childList: true, characterData: true, subtree: true });
    return () => watching.disconnect();
  }, []);
}

// screen readers and keyboards start at the new screen, not at the old link
function useFocusOnNewScreen(main, path) {
  const first = useRef(true);
  // at once: who taps a field of it then keeps it
  useLayoutEffect(() => {
    if (!first.current) {
      main.current.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
    first.current = false;
  }, [path]);
  // a part of the screen that the address names
  useEffect(() => {
    document.getElementById(location.hash.slice(1))?.scrollIntoView();
  }, [path]);
}
