/* Going somewhere for what is missing, and coming back to where it was needed. */
import { html } from 'htm/preact';
import { mayAdd } from '../../data/records.js';

/** An address to go to from here, that says where to come back to; `chosen`, {name: value}, is chosen there again. */
export function thereAndBack(path, chosen = {}) {
  const asked = new URLSearchParams(location.search);
  for (const [name, value] of Object.entries(chosen)) asked.set(name, value);
  const here = [location.pathname, `${asked}`].filter(Boolean).join('?');
  return `${path}${path.includes('?') ? '&' : '?'}back=${encodeURIComponent(here)}`;
}

/** Where an address says to come back to, within the app; else `otherwise`. */
export const backTo = ({ back = '' }, otherwise) => (/^\/(?![/\\])/.test(back) ? back : otherwise);

/** Why there is nothing here yet, and a button that goes where it is added and comes back. */
export function Missing({ kind, says, does, path = `/settings/${kind}/new` }) {
  return html`
    <p class="lead" data-missing=${kind}>${says}</p>
    ${mayAdd(kind) ? html`<p><a class="button main" href=${thereAndBack(path)}>${does}</a></p>` : html`<p class="hint">An owner's phone does that.</p>`}
  `;
}
