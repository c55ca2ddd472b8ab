/* The frame round every screen: top line, the places, and which address shows what. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { LocationProvider, Route, Router, useLocation } from 'preact-iso';
import { rememberScreen } from '../data/preferences.js';
import { NOWHERE, PLACES, SCREENS } from './screens.js';
import { Notice } from './parts/notice.js';

export function Frame() {
  return html`<${LocationProvider}><${Layout} /><//>`;
}

function Layout() {
  const { path } = useLocation();
  const main = useRef();
  useTitleOfScreen(main);
  useFocusOnNewScreen(main, path);
  useEffect(() => rememberScreen(path), [path]);
  return html`
    <a class="skip" href="#main">To the screen</a>
    <header class="top">
      <${WayBack} path=${path} />
      <a class="quiet" href="/settings" aria-current=${path === '/settings' ? 'page' : undefined}>Settings</a>
    </header>
    <${Offer} />
    <main id="main" tabindex="-1" ref=${main}>
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

// comes after the first paint, as its scripts do
function Offer() {
  const [UpdateOffer, show] = useState(null);
  useEffect(() => {
    import('./parts/update-offer.js').then((part) => show(() => part.UpdateOffer));
  }, []);
  return UpdateOffer && html`<${UpdateOffer} />`;
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
  useEffect(() => {
    if (!first.current) {
      main.current.focus({ preventScroll: true });
      scrollTo(0, 0);
    }
    first.current = false;
  }, [path]);
}
