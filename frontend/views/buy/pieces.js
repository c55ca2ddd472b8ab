/* The sizes she makes. */
import { html } from 'htm/preact';
import { SavedList } from './saved-list.js';

export function Pieces() {
  return html`
    <${SavedList} kind="piece" title="Sizes" from="/buy/strip-length"
      empty="No sizes yet. Work out a strip and save it under a name." />
  `;
}
