/* What the core noted of results, in words: what is missing in them. */
import { html } from 'htm/preact';
import { notesInWords } from '../../data/calculating.js';
import { useWords } from '../parts/use-words.js';

export function Notes({ notes }) {
  const words = useWords(() => notesInWords(notes), [JSON.stringify(notes)]);
  if (!notes.length || !words) return null;
  return html`<ul class="notes">${words.map((text, index) => html`<li data-note=${notes[index].rule}>${text}</li>`)}</ul>`;
}
