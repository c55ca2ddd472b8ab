/* The layout that a line of the shopping list was put on with. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { layoutOf } from '../../data/buying.js';
import { lengthsInWords } from '../../data/calculating.js';
import { heightsInWords } from '../../data/cutting.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { useWords } from '../parts/use-words.js';

async function lengthsOf(laid) {
  const [[toBuy], [width]] = await Promise.all([lengthsInWords([laid.length_to_buy], 'm'), lengthsInWords([laid.usable_width], 'cm')]);
  return { toBuy, width };
}

export function LineLayout({ line }) {
  const kept = layoutOf(line);
  const words = useWords(() => kept && lengthsOf(kept.laid), [line]);
  const heights = useWords(() => kept && heightsInWords(kept.laid), [line]);
  if (!kept) return html`<h1>Layout</h1><p class="lead">This line has no layout on this phone. <a href="/buy/list">The list</a></p>`;
  if (!heights) return html`<h1>Layout</h1>`;
  const { laid, given } = kept;
  const pieces = laid.rows.reduce((sum, row) => sum + row.strips.length, 0);
  return html`
    <h1>${laid.name}</h1>
    <p>${pieces} strips in ${countInWords(laid.rows.length, 'row')}, <strong class="number">ask for ${words.toBuy}</strong></p>
    <${LayoutDrawing} laid=${laid} given=${given} heights=${heights} title=${`${pieces} strips on ${laid.name}, to scale`}
      caption=${`The cloth's length lies to the right, ${words.width} wide between the edges.`} />
    <p class="no-print"><a class="button" href="/buy/list">Back to the list</a></p>
  `;
}
