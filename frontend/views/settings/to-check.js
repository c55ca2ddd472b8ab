/* Changes that the server would not take: the reason, and letting go of them. */
import { html } from 'htm/preact';
import { letGo } from '../../data/actions.js';
import { toCheck } from '../../data/records.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';

export function ToCheck() {
  useRecords();
  const found = toCheck();
  if (!found.length) return null;
  return html`
    <section class="plain" id="check">
      <h2>To check</h2>
      <ul class="lines">
        ${found.map((change) => html`
          <li key=${change.id} data-to-check=${change.id}>
            <span><strong>${change.fields.name ?? change.kind}</strong>
              <small>${reasons(change)}</small></span>
            <button type="button" class="quiet" onClick=${() => saying('Let go', () => letGo(change.id))}>Let go</button>
          </li>
        `)}
      </ul>
    </section>
  `;
}

function reasons({ trouble }) {
  return Object.entries(trouble).map(([field, messages]) => `${field.replaceAll('_', ' ')} ${messages.join(', ')}`.trim()).join('; ');
}
