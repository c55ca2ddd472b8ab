/* The strip with its seams, the closed tube and the finished piece, to one scale. */
import { html } from 'htm/preact';
import { defaultsOf } from '../../data/calculating.js';
import { Figure, PAPER_WIDTH, ScaleBar, scaleFor } from '../parts/drawing.js';

const GAP = 18;

export function StripDrawing({ form }) {
  const { input, result, shown } = form.answer;
  if (!result) return null;
  const size = { ...defaultsOf(form.calculator), ...input };
  const ring = size.loop / Math.PI;
  const across = ring + 2 * size.tube_width;
  const scale = scaleFor(Math.max(result.strip_length, across), result.strip_width + size.tube_width + across, 250);
  const stripHeight = result.strip_width * scale;
  const tubeTop = stripHeight + GAP;
  const ringTop = tubeTop + size.tube_width * scale + GAP;
  const height = ringTop + across * scale;
  return html`
    <${Figure} title=${`Strip ${shown.strip_length} by ${shown.strip_width}, its tube and the finished piece, to scale`}
      height=${height} caption=${`Cut ${shown.strip_length} × ${shown.strip_width}; dashed lines are seams`}>
      <${Strip} result=${result} size=${size} scale=${scale} />
      <${Tube} result=${result} size=${size} scale=${scale} top=${tubeTop} />
      <${Ring} size=${size} scale=${scale} top=${ringTop} />
      <${ScaleBar} scale=${scale} y=${height - 8} />
    <//>
  `;
}

function Strip({ result, size, scale }) {
  const [width, height] = [result.strip_length * scale, result.strip_width * scale];
  const [end, side] = [size.end_seam * scale, size.side_seam * scale];
  return html`
    <rect class="cloth" data-shape="strip" width=${width} height=${height} />
    <path class="buy-seam" d=${`M${end} 0V${height}M${width - end} 0V${height}M0 ${side}H${width}M0 ${height - side}H${width}`} />
    <text x=${width / 2} y=${height / 2 + 4} text-anchor="middle">strip</text>
  `;
}

function Tube({ result, size, scale, top }) {
  const width = (result.strip_length - 2 * size.end_seam) * scale;
  const height = size.tube_width * scale;
  return html`
    <rect class="cloth" data-shape="tube" x=${size.end_seam * scale} y=${top} width=${width} height=${height} />
    <text x=${size.end_seam * scale + width / 2} y=${top + height / 2 + 4} text-anchor="middle">tube</text>
  `;
}

function Ring({ size, scale, top }) {
  const inner = (size.loop / Math.PI / 2) * scale;
  const outer = inner + size.tube_width * scale;
  const [x, y] = [PAPER_WIDTH / 2, top + outer];
  return html`
    <path class="cloth" data-shape="piece" d=${gathers(x, y, outer, Math.round(size.fullness * 8))} />
    <circle class="buy-hole" cx=${x} cy=${y} r=${inner} />
    <circle class="buy-seam" cx=${x} cy=${y} r=${inner + 3} />
    <text x=${x} y=${y + 4} text-anchor="middle">loop</text>
  `;
}

// more fullness shows as more gathers round the edge
function gathers(x, y, radius, count) {
  const at = (index, r) => {
    const angle = (index / count) * 2 * Math.PI;
    return `${x + r * Math.cos(angle)} ${y + r * Math.sin(angle)}`;
  };
  const turns = Array.from({ length: count }, (_, index) => `Q${at(index + 0.5, radius * 1.0)} ${at(index + 1, radius * 0.92)}`);
  return `M${at(0, radius * 0.92)}${turns.join('')}Z`;
}
