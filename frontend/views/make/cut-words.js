/* Cuts in words. */
import { lengthsInWords } from '../../data/calculating.js';
import { heightsInWords, piecesOn } from '../../data/cutting.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';

/** The lengths of a laid cloth in this phone's measure: {laid, used, length, toBuy, width, settings (a cut each),
    heights (a row each), strips ([{name, quantity, size}]), pieces (a map from a cut of pieces to their size)}. */
export async function lengthsIn(laid) {
  const long = [laid.used_length, laid.usable_length ?? laid.used_length, laid.usable_width];
  const [used, length, width] = await lengthsInWords(long, 'cm');
  const [toBuy] = await lengthsInWords([laid.length_to_buy ?? 0], 'm');
  const settings = await lengthsInWords(
    laid.cuts.map((cut) => cut.setting),
    'mm',
  );
  const heights = await heightsInWords(laid);
  const sizes = piecesOn(laid);
  const sides = await lengthsInWords(
    sizes.flatMap((size) => [size.length, size.width]),
    'mm',
  );
  const strips = sizes.map(({ name, quantity }, index) => ({ name, quantity, size: `${sides[2 * index]} × ${sides[2 * index + 1]}` }));
  return { laid, used, length, toBuy, width, settings, heights, strips, pieces: await piecesIn(laid.cuts) };
}

async function piecesIn(cuts) {
  const ofPieces = cuts.filter((cut) => cut.pieces);
  const sides = await lengthsInWords(
    ofPieces.flatMap(({ pieces: [{ width, length }] }) => [width, length]),
    'mm',
  );
  return new Map(ofPieces.map((cut, index) => [cut, `${unbroken(sides[2 * index])} × ${unbroken(sides[2 * index + 1])}`]));
}

const unbroken = (words) => words.replaceAll(' ', '\u00a0');

/** One cut as an instruction; `setting` in words, and of a cut of pieces their size. */
export function cutInWords(cut, setting, given, laid, size) {
  const { what, times, layers, passes, last_layers: last, strip } = cut;
  const how = given.tear ? 'Tear' : 'Cut';
  const lies = layers > 1 ? `, ${layers} plies at once` : '';
  const over = passes > 1 ? `, in ${passes} passes${last < layers ? ` (the last of ${last})` : ''}` : '';
  const often = times === 1 ? 'once' : `${times} times`;
  if (cut.pieces) return `${pieceInWords(cut, laid, size)}: ruler at ${setting}, ${often}${lies}${over}.`;
  if (what === 'row') return `${how} ${rowsInWords(cut.rows)}: ruler at ${setting}, ${often}${lies}.`;
  const name = laid.rows[cut.rows[0]].strips.find((one) => one.strip === strip).name;
  const act =
    what === 'trim'
      ? `Trim ${name} to ${setting}`
      : what === 'stack'
        ? `${how} ${name} off each stack that holds it: ruler at ${setting}, ${often}`
        : `${how} ${name} off ${rowsInWords(cut.rows)}: ruler at ${setting}, ${often}`;
  return `${act}${lies}${over}.`;
}

// the sides of a piece stand across the cloth × along it
function pieceInWords({ what, pieces, strip }, laid, size) {
  const of = pieces.length === 1 ? `the piece of ${size}` : `the ${pieces.length} pieces of ${size}`;
  if (strip === null) return `Cut ${of} ${what} the cloth`;
  return `Cut ${nameOfStrip(laid, strip)} off ${of}, ${what} the cloth`;
}

const nameOfStrip = (laid, strip) => laid.rows.flatMap((row) => row.strips).find((one) => one.strip === strip).name;

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
