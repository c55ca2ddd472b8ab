/* What a piece brings is told without material of which no purchase is recorded: said beside it, with the way to record one. */
import { html } from 'htm/preact';
import { thereAndBack } from '../parts/way-back.js';

const MOST_NAMED = 3;

/** Said of the figures of a screen, from {product: names of its materials never bought, null where none was made} of `products`. */
export function Unbought({ unbought, products }) {
  const names = [...new Set(products.flatMap((product) => unbought[product] ?? []))];
  if (!names.length) return null;
  return html`<p class="hint" data-unbought=${names.length}>No purchase of ${inWords(names)} is recorded, so ${names.length === 1 ? 'it costs' : 'they cost'} nothing here: what pieces of ${names.length === 1 ? 'it' : 'them'} bring is told too high. <${Record} /></p>`;
}

/** Said beside what a piece of one product brings. */
export function UnboughtOf({ names }) {
  if (!names?.length) return null;
  return html`<p data-unbought-of=${names.length}>That is too high: what ${inWords(names)} cost is not in it, as no purchase is recorded. <${Record} /></p>`;
}

const Record = () => html`<a class="to-record no-print" href=${thereAndBack('/buy/purchase/new')}>Record a purchase</a>`;

function inWords(names) {
  const named = names.slice(0, names.length > MOST_NAMED + 1 ? MOST_NAMED : names.length);
  const rest = names.length - named.length;
  if (rest) return `${named.join(', ')} and ${rest} more`;
  return named.length > 1 ? `${named.slice(0, -1).join(', ')} and ${named.at(-1)}` : named[0];
}
