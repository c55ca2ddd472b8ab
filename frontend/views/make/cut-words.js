/* Cuts in words. */
import { lengthsInWords } from '../../data/calculating.js';
import { heightsInWords, piecesOn } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';

/** The lengths of a laid cloth in this phone's measure: {laid, used, length, toBuy, width, settings (a cut each),
    heights (a row each), strips ([{name, quantity, size}])}. */
export async function lengthsIn(laid) {
  const long = [laid.used_length, laid.usable_length ?? laid.used_length, laid.length_to_buy ?? 0, laid.usable_width];
  const [used, length, toBuy, width] = await lengthsInWords(long, 'cm');
  const settings = await lengthsInWords(laid.cuts.map((cut) => cut.setting), 'mm');
  const heights = await heightsInWords(laid);
  const sizes = piecesOn(laid);
  const sides = await lengthsInWords(sizes.flatMap((size) => [size.length, size.width]), 'mm');
  const strips = sizes.map(({ name, quantity }, index) => ({ name, quantity, size: `${sides[2 * index]} × ${sides[2 * index + 1]}` }));
  return { laid, used, length, toBuy, width, settings, heights, strips };
}

/** One cut as an instruction; `setting` in words. */
export function cutInWords(cut, setting, given, laid) {
  const { what, times, layers, passes, last_layers: last, strip } = cut;
  const how = given.tear ? 'Tear' : 'Cut';
  const lies = layers > 1 ? `, ${layers} layers at once` : '';
  const over = passes > 1 ? `, in ${passes} passes${last < layers ? ` (the last of ${last})` : ''}` : '';
  const often = times === 1 ? 'once' : `${times} times`;
  if (what === 'row') return `${how} ${rowsInWords(cut.rows)}: ruler at ${setting}, ${often}${lies}.`;
  const name = laid.rows[cut.rows[0]].strips.find((one) => one.strip === strip).name;
  const act = what === 'trim' ? `Trim ${name} to ${setting}`
    : what === 'stack' ? `${how} each stack of ${name} apart: ruler at ${setting}, ${often}`
    : `${how} ${name} off ${rowsInWords(cut.rows)}: ruler at ${setting}, ${often}`;
  return `${act}${lies}${over}.`;
}

/** Rows by their numbers from 1: row 3, rows 1 to 4. They lie next to each other. */
export function rowsInWords(rows) {
  const [first, last] = [rows[0] + 1, rows.at(-1) + 1];
  return first === last ? `row ${first}` : `rows ${first} to ${last}`;
}

/** What a recorded cut was cut from: a cloth, or a remnant of it. */
export function cutOf({ cloth, remnant }) {
  const [of, from] = [nameOf('cloth', recordById('cloth', cloth)), nameOf('remnant', recordById('remnant', remnant))];
  return from ? `${of}, from ${from}` : of;
}

/** The strips of a recorded cut: 24 × Everyday, 6 × Petite. */
export const stripsInWords = (lines) => lines.map(({ size, quantity }) => `${quantity} × ${nameOf('piece', recordById('piece', size))}`).join(', ');
