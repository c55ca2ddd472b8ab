/* Said in the place of an answer that could not be had: what is safe, and a way to ask again. */
import { html } from 'htm/preact';

/** `problem`, an error, and `again()`, as `useAsked` tells them. */
export const Refused = ({ problem, again }) => html`
  <div data-refused>
    <p class="problem" role="alert">This could not be worked out. What you recorded is safe. Try again; if it stays so, close Boltfair and open it again.</p>
    <p><button type="button" class="main" onClick=${again}>Try again</button></p>
    <details class="more"><summary>What went wrong</summary><p class="hint">${problem.message}</p></details>
  </div>
`;
