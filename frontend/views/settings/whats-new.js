/* The version in use and what changed in it. */
import { html } from 'htm/preact';
import { changes } from '../../data/changelog.js';
import { dateInWords } from '../../data/naming.js';
import { useWords } from '../parts/use-words.js';

export function WhatsNew() {
  const told = useWords(changes, []) || [];
  return html`
    <section class="plain">
      <h2>What is new</h2>
      ${told.map(
        (release) => html`
        <h3>${release.version}, ${dateInWords(release.day)}</h3>
        <ul>${release.changes.map((change) => html`<li>${change}</li>`)}</ul>
      `,
      )}
      <p class="hint">Build ${document.documentElement.dataset.version.slice(0, 8)}</p>
    </section>
  `;
}
