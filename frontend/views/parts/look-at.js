/* Said on the screens that add up what was recorded: something is set aside, or to be checked; and where. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { toLookAt } from '../../data/looked-at.js';
import { useFollowed } from './use-records.js';

export function LookAt({ reviewing }) {
  const { aside = [], doubtful: all = [] } = useFollowed(toLookAt, []) ?? {};
  const doubtful = reviewing ? all : [];
  if (!aside.length && !doubtful.length) return null;
  return html`
    <p class="verdict no-print" data-look-at data-aside=${aside.length} data-doubtful=${doubtful.length}>
      ${aside.length > 0 && `${countInWords(aside.length, 'record')} cannot be fully read: figures here may lack ${aside.length === 1 ? 'it' : 'them'}. `}
      ${doubtful.length > 0 && `${countInWords(doubtful.length, 'record')} by a helper to look at. `}
      <a href="/settings#check">To check</a>
    </p>
  `;
}
