/* Whether a record is only here or also sent; a tap shows what is waiting and since when. */
import { html } from 'htm/preact';

export function KeptState() {
  return html`<a class="kept" href="/settings#kept" data-kept="here">on this phone</a>`;
}
