/* Said while a year of records is looked at. */
import { html } from 'htm/preact';

const ADDING = { costs: 'Adding up what pieces cost', days: 'Looking at the days behind it' };

/** What is being added up, {what, done, all}, and how far it is: once, as what it tells is remembered. */
export function Adding({ adding }) {
  if (!adding) return html`<p class="hint" role="status">Adding up…</p>`;
  const { what, done, all } = adding;
  return html`<p class="hint" role="status">${ADDING[what]}…</p><progress max=${all} value=${done} aria-label=${ADDING[what]}></progress>`;
}

/** Said of what stands there from before something changed, until it is worked out anew. */
export const AsBefore = () => html`<p class="hint no-print" role="status" data-as-before>As it was before the last change; adding it up anew…</p>`;
