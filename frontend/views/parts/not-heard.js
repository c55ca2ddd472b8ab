/* Which phones a figure may lack: said instead of an alarm. */
import { useEffect, useReducer } from 'preact/hooks';
import { html } from 'htm/preact';
import { dayOf, now, today } from '../../data/clock.js';
import { dayInWords, timeInWords } from '../../data/naming.js';
import { askWhoWasHeard, notHeard } from '../../data/phones.js';

/** The phones that a figure of a time (UTC ms, now if none is given) may lack. */
export function useNotHeard(about = now()) {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => {
    // without the server what it said last holds
    askWhoWasHeard().then(again, () => {});
  }, []);
  return notHeard(about);
}

export function NotHeard({ phones }) {
  if (!phones.length) return null;
  return html`
    <div class="verdict" data-not-heard=${phones.length}>
      ${phones.map(({ name, since }) => html`<p>${heardInWords(name, since)}</p>`)}
    </div>
  `;
}

function heardInWords(name, since) {
  const day = since && dayOf(since) !== today() ? `${dayInWords(dayOf(since))}, ` : '';
  const when = since ? day + timeInWords(since) : 'never';
  if (name === null) return `This phone last synced: ${when}. What other phones recorded since, or have not sent, is not in this.`;
  return `${name} last synced: ${when}. What it recorded since is not in this.`;
}
