/* Changes that the server would not take: the reason, correcting them, letting go of them. */
import { html } from 'htm/preact';
import { letGo, takeBack } from '../../data/actions.js';
import { nameOf } from '../../data/naming.js';
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
      <p class="hint">The server did not take these. Correct them, or let them go; until then they count for nothing.</p>
      <ul class="lines">
        ${found.map((change) => html`
          <li key=${change.id} data-to-check=${change.id}>
            <span><strong>${titleOf(change)}</strong> <small>${reasonsOf(change)}</small></span>
            <a class="button" href=${`/settings/check/${change.id}`}>Correct</a>
            <button type="button" class="quiet" onClick=${() => saying('Let go', () => letGo(change.id), () => takeBack(change))}>Let go</button>
          </li>
        `)}
      </ul>
    </section>
  `;
}

/** What a change is called: its record's name, or its kind and when it was. */
export function titleOf({ kind, record, fields, at }) {
  const name = record && nameOf(kind, fields);
  return name || `${kind.replaceAll('-', ' ')}, ${new Date(at).toLocaleString([], { dateStyle: 'short', timeStyle: 'short' })}`;
}

/** Why a change was not taken, in the server's words. */
export function reasonsOf({ trouble }) {
  return Object.entries(trouble).map(([field, messages]) => `${field.replaceAll(/[._]/g, ' ')} ${messages.join(', ')}`.trim()).join('; ');
}
