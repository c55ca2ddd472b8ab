/* Shown when Boltfair cannot start at all: what happened, and what to try. */
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
