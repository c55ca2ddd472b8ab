/* Said while results are worked out; while days are summed up, with how far that is. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { onSumming } from '../../data/books.js';

export function SummingUp() {
  const [done, show] = useState(null);
  useEffect(() => onSumming(show), []);
  return html`
    <p class="hint" role="status">Adding up…</p>
    ${done !== null && html`<progress aria-label="Days added up" value=${done} max="1"></progress>`}
  `;
}
