/* A layout on its cloth, to scale, the cloth's length lying to the right: one path for each size and way. */
import { html } from 'htm/preact';
import { Figure, outline, ScaleBar, scaleFor } from './drawing.js';
import { placeHeights, RowHeights } from './row-heights.js';

/** The rows of a laid cloth. `heights`: of each row in words; `marked`: the pieces that a cut is about, {x, y, width,
    length} each; `cut`: one whose cuts are drawn on them. */
export function LayoutDrawing({ laid, given, heights, marked = [], cut, title, caption }) {
  const length = laid.usable_length ?? laid.used_length;
  const scale = scaleFor(length, laid.usable_width, 260);
  const height = laid.usable_width * scale;
  const below = placeHeights(laid.rows, heights, scale);
  return html`
    <${Figure} output=${`layout ${laid.cloth}`} value=${laid.rows.length} height=${height + below.depth + 22} title=${title} caption=${caption}>
      <rect class="cloth" width=${length * scale} height=${height} />
      ${strips(laid.rows, scale).map(({ strip, turned, d }) => html`<path class="strip" data-strip=${strip} data-turned=${turned || undefined} d=${d} />`)}
      ${laid.rows.map((row) => html`<path class="row-edge" d=${`M${((row.y + row.height) * scale).toFixed(2)} 0v${height.toFixed(2)}`} />`)}
      ${marked.map((piece) => html`<rect class="marked" x=${piece.y * scale} y=${piece.x * scale} width=${piece.length * scale} height=${piece.width * scale} />`)}
      ${cut && html`<path class="cut-line" d=${marked.map((piece) => cutLines(cut, piece, scale)).join('')} />`}
      ${given.nap && html`<path class="nap" d=${laid.rows.map((row) => arrow((row.y + row.height / 2) * scale, height)).join('')} />`}
      ${names(laid.rows, scale).map(({ name, x, y, upright }) => html`<text x=${x} y=${y} text-anchor="middle" dominant-baseline="central" transform=${upright ? `rotate(-90 ${x} ${y})` : undefined}>${name}</text>`)}
      <${RowHeights} placed=${below} y=${height} />
      <${ScaleBar} scale=${scale} y=${height + below.depth + 14} />
    <//>
  `;
}

// a cut across the cloth stands upright here, where its length lies to the right
function cutLines({ what, setting, times }, { x, y, width, length }, scale) {
  const lines = Array.from({ length: times }, (_, index) => (index + 1) * setting);
  const [from, to, long] = [y * scale, x * scale, (what === 'across' ? width : length) * scale];
  const line = (at) =>
    what === 'across'
      ? `M${(from + at * scale).toFixed(2)} ${to.toFixed(2)}v${long.toFixed(2)}`
      : `M${from.toFixed(2)} ${(to + at * scale).toFixed(2)}h${long.toFixed(2)}`;
  return lines.map(line).join('');
}

function strips(rows, scale) {
  const paths = new Map();
  for (const strip of rows.flatMap((row) => row.strips)) {
    const key = `${strip.strip} ${strip.turned}`;
    const [across, along] = strip.turned ? [strip.width, strip.length] : [strip.length, strip.width];
    const d = outline(strip.y * scale, strip.x * scale, along * scale, across * scale);
    paths.set(key, { strip: strip.strip, turned: strip.turned, d: (paths.get(key)?.d ?? '') + d });
  }
  return [...paths.values()];
}

// what a letter and a line of the drawing's type take
const [LETTER, LINE] = [7, 13];

// a size is named on its first strip that has the room
function names(rows, scale) {
  const named = new Map();
  for (const { strip, name, x, y, length, width, turned } of rows.flatMap((row) => row.strips)) {
    const [across, along] = (turned ? [width, length] : [length, width]).map((side) => side * scale);
    const upright = across > along;
    if (!named.has(strip) && Math.min(across, along) > LINE && Math.max(across, along) > name.length * LETTER) {
      named.set(strip, { name, x: y * scale + along / 2, y: x * scale + across / 2, upright });
    }
  }
  return [...named.values()];
}

// the way the pile lies, the same in every row: along the cloth
const ARROW = 5;
const arrow = (middle, height) => `M${(middle - ARROW).toFixed(2)} ${(height / 2).toFixed(2)}h${2 * ARROW}m-3 -3l3 3l-3 3`;
