/* An address that leads nowhere. */
import { html } from 'htm/preact';

export function NoSuchScreen() {
  return html`
    <h1>No such screen</h1>
    <p>This address leads nowhere in Boltfair. <a href="/buy">Go to Buy</a></p>
  `;
}
