/* What is said where goods are packed and laid out: small parts, and children under three. */
import { html } from 'htm/preact';
import { askOnce } from '../../data/asking.js';
import { useWords } from './use-words.js';

export function SmallParts() {
  const told = useWords(() => askOnce('small-parts', 'at_the_stall', {}), []);
  return told && html`<p class="caution" data-small-parts>${told.small_parts} ${told.defer}</p>`;
}
