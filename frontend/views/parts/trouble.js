/* Shown where Boltfair cannot start at all: what happened, and what to try. */
import { html } from 'htm/preact';

export function Trouble({ error }) {
  return html`
    <header class="top"><span class="brand">Boltfair</span></header>
    <main>
      <h1>Boltfair could not start</h1>
      <p role="alert">${error.message}</p>
      <p>What you kept is still on this phone. Close every Boltfair window and open it again.</p>
      <button type="button" class="main" onClick=${() => location.reload()}>Try again</button>
    </main>
  `;
}

/** Where the address is not secure, a browser lets nothing be paired, nor kept for use without a signal. */
export const NotSecure = () => html`
  <header class="top"><span class="brand">Boltfair</span></header>
  <main data-not-secure>
    <h1>This address is not secure</h1>
    <p role="alert">Browsers let Boltfair pair phones, and open without a signal, at an address that begins with https only.</p>
    <p>On the computer that runs it, start <code>boltfair serve --https</code>, and open the address that is told there.</p>
  </main>
`;
