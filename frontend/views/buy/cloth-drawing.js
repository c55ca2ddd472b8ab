/* A cloth seen from above with its rows of strips, to scale, its length lying to the right. */
import { countInWords } from '../../data/naming.js';
import { html } from 'htm/preact';
import { Figure, outline, ScaleBar, scaleFor } from '../parts/drawing.js';

const MOST_STRIPS = 3000;

/** The rows on the cloth bought, after washing. */
export function RowsDrawing({ form }) {
  const { input, result, shown } = form.answer;
  if (!result) return null;
  const selvedge = (result.row_reach * (input.fold ?? 1) - result.usable_width) / 2;
  const scale = scaleFor(result.bought_washed, result.usable_width + 2 * selvedge, 220);
  const height = (result.usable_width + 2 * selvedge) * scale;
  const rows = countInWords(result.rows, 'row');
  return html`
    <${Figure} output="bands" value=${JSON.stringify(result.bands)} height=${height + 22}
      title=${`${rows} of strips on ${shown.bought_washed} of washed cloth, to scale`}
      caption=${`${rows}, strips lying ${result.direction}; the cloth's length lies to the right`}>
      <rect class="buy-selvedge" width=${result.bought_washed * scale} height=${height} />
      <rect class="cloth" y=${selvedge * scale} width=${result.bought_washed * scale} height=${result.usable_width * scale} />
      <${Bands} result=${result} input=${input} scale=${scale} top=${selvedge * scale} />
      <${ScaleBar} scale=${scale} y=${height + 14} />
    <//>
  `;
}

// one shape a band: on a phone, hundreds of them take longer than the calculation
function Bands({ result, input, scale, top }) {
  let y = 0;
  let left = MOST_STRIPS;
  return result.bands.map((band) => {
    const [high, wide] = band.direction === 'across' ? [input.strip_width, input.strip_length] : [input.strip_length, input.strip_width];
    const strips = [];
    for (let row = 0; row < band.rows; row += 1) {
      for (let index = 0; index < band.per_row && left > 0; index += 1, left -= 1) {
        strips.push(outline(y * scale, top + index * wide * scale, high * scale, wide * scale));
      }
      y += band.row_height;
    }
    return html`<path class="strip" d=${strips.join('')} />`;
  });
}

/** The remnant with each strip where it lies. */
export function RemnantDrawing({ form }) {
  const { result } = form.answer;
  if (!result) return null;
  const scale = scaleFor(result.usable_length, result.usable_width, 260);
  const height = result.usable_width * scale;
  return html`
    <${Figure} output="placed" value=${JSON.stringify(result.placed)} height=${height + 22}
      title=${`${result.pieces} strips on the remnant, to scale`}
      caption=${`${result.pieces} strips; first cuts run ${result.first_cuts}. The remnant's length lies to the right`}>
      <rect class="cloth" width=${result.usable_length * scale} height=${height} />
      ${result.placed.map((strip) => {
        const [across, along] = strip.turned ? [strip.width, strip.length] : [strip.length, strip.width];
        return html`<rect class="strip" data-turned=${strip.turned || undefined}
          x=${strip.y * scale} y=${strip.x * scale} width=${along * scale} height=${across * scale} />`;
      })}
      <${ScaleBar} scale=${scale} y=${height + 14} />
    <//>
  `;
}
