/* Whether a record is only here, sent, or to check; a tap shows what is waiting and since when. */
import { html } from 'htm/preact';
import { keptState } from '../../data/records.js';

export function KeptState({ id }) {
  const state = keptState(id);
  return html`<a class="kept" href="/settings#kept" data-kept=${state}>${state}</a>`;
}
