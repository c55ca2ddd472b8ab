/* Shared by the drawings: one scale for both directions, and a bar that shows it. */
import { html } from 'htm/preact';

export const PAPER_WIDTH = 360;

/** Choose how many drawing units a millimetre is, to fill a width but not exceed a height. */
export function scaleFor(widthMm, heightMm, mostHeight = 240) {
  return Math.min(PAPER_WIDTH / widthMm, mostHeight / heightMm);
}

/** A rectangle as a part of a path. */
export function outline(x, y, width, height) {
  const [w, h] = [width.toFixed(2), height.toFixed(2)];
  return `M${x.toFixed(2)} ${y.toFixed(2)}h${w}v${h}h-${w}z`;
}

/** A figure with its drawing; `name` and `value` make it the hook of an output. */
export function Figure({ title, height, children, caption, output, value }) {
  return html`
    <figure class="drawing" data-output=${output} data-value=${value}>
      <svg viewBox=${`-1 -1 ${PAPER_WIDTH + 2} ${height + 2}`} role="img" aria-label=${title}>${children}</svg>
      <figcaption>${caption}</figcaption>
    </figure>
  `;
}

/** A bar of 10 cm (or 1 m on a long cloth) at the drawing's scale. */
export function ScaleBar({ scale, y }) {
  const long = 100 * scale < 12;
  const length = (long ? 1000 : 100) * scale;
  return html`
    <g class="scale-bar">
      <path d=${`M0 ${y - 4}v8M0 ${y}h${length}m0 -4v8`} />
      <text x=${length + 6} y=${y + 4}>${long ? '1 m' : '10 cm'}</text>
    </g>
  `;
}
