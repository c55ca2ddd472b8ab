/* The heights of a layout's rows below them, like ones together: what the ruler is set to. */
import { html } from 'htm/preact';
import { PAPER_WIDTH } from './drawing.js';

// what a letter and a line of these words take, and where they stand below the cloth
const [LETTER, LINE] = [7.5, 15];
const [RULE, WORDS] = [5, 12];

/** Place what is said of the rows; `heights` in words, one a row. Returns {groups, upright, depth}, depth what it
    takes below the cloth. */
export function placeHeights(rows, heights, scale) {
  const groups = [];
  rows.forEach(({ y, height }, index) => {
    const last = groups.at(-1);
    if (last?.height === height) Object.assign(last, { to: (y + height) * scale, count: last.count + 1 });
    else groups.push({ height, from: y * scale, to: (y + height) * scale, count: 1, words: heights[index] });
  });
  for (const group of groups) {
    group.text = group.count > 1 ? `${group.count} × ${group.words}` : group.words;
    group.x = (group.from + group.to) / 2;
  }
  const upright = groups.some(({ from, to, text }) => text.length * LETTER > to - from);
  if (upright) spread(groups);
  const longest = Math.max(0, ...groups.map(({ text }) => text.length));
  return { groups, upright, depth: WORDS + (upright ? longest * LETTER : LINE) };
}

// a line each, as near to its rows as the others let it
function spread(groups) {
  const [first, last] = [LINE / 2, PAPER_WIDTH - LINE / 2];
  groups.forEach((group, index) => {
    group.at = Math.max(group.x, index ? groups[index - 1].at + LINE : first);
  });
  groups.toReversed().forEach((group, index, back) => {
    group.at = Math.min(group.at, index ? back[index - 1].at - LINE : last);
  });
}

export function RowHeights({ placed: { groups, upright }, y }) {
  return groups.map(
    ({ height, from, to, count, text, x, at = x }) => html`
    <path class="row-rule" d=${`M${(from + 1).toFixed(2)} ${y + RULE - 2}v4m0 -2H${(to - 1).toFixed(2)}m0 -2v4M${x.toFixed(2)} ${y + RULE}L${at.toFixed(2)} ${y + WORDS - 2}`} />
    <text class="row-height" data-height=${height} data-rows=${count} x=${at} y=${y + WORDS} text-anchor=${upright ? 'end' : 'middle'}
      dominant-baseline=${upright ? 'central' : 'hanging'} transform=${upright ? `rotate(-90 ${at} ${y + WORDS})` : undefined}>${text}</text>
  `,
  );
}
