/* A long list in groups, the first of them open; what is folded is not drawn. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { monthInWords } from '../../data/naming.js';

/** Group rows by a key in the order they come in: [{title, rows}]. */
export function grouped(rows, titleOf) {
  const groups = new Map();
  for (const row of rows) {
    const title = titleOf(row);
    groups.set(title, [...(groups.get(title) ?? []), row]);
  }
  return [...groups].map(([title, found]) => ({ title, rows: found }));
}

/** Group rows by the month of their day. */
export const byMonth = (rows, dayOf) => grouped(rows, (row) => monthInWords(dayOf(row)));

/** The groups, each row as the line that `line(row)` makes of it; open is the first, and the one whose row the address names. */
export const Groups = ({ groups, line }) =>
  groups.map(
    ({ title, rows }, index) =>
      html`<${Folded} key=${title} title=${title} rows=${rows} first=${index === 0 || rows.some(({ id }) => id && `#${id}` === location.hash)} list=${() => html`<ul class="lines">${rows.map(line)}</ul>`} />`,
  );

/** Rows under a title, as what `list(rows)` makes of them; open from the start only where they come first. */
export function Folded({ title, rows, first = false, list }) {
  const [open, setOpen] = useState(first);
  return html`
    <details class="more" data-group=${title} open=${open} onToggle=${({ target }) => setOpen(target.open)}>
      <summary>${title} <small class="group-size">${rows.length}</small></summary>
      ${open && list(rows)}
    </details>
  `;
}
