/* The cloths she buys. */
import { html } from 'htm/preact';
import { SavedList } from './saved-list.js';

export function Cloths() {
  return html`
    <${SavedList} kind="cloth" title="Cloths" from="/buy/fabric-per-dozen"
      empty="No cloths yet. Work out the cloth to buy and save it under a name." />
  `;
}
