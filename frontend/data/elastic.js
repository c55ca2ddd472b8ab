/* The elastic of a plan that was worked out: how each roll of it is cut. */
import { countInWords } from './naming.js';
import { lengthsInWords } from './calculating.js';
import { recordById, records } from './records.js';

/** Each elastic of a plan: [{elastic (its record), estimated (whether nobody measured its knot), rolls}], and of
    the rolls [{roll (opened, whole or new), times, length, left, stops: [{length, count, sizes}]}]. */
export function elasticsOf(plan) {
  const { rolls = [], estimated = [], result } = plan;
  const ids = [...new Set(rolls.map(({ elastic }) => elastic))];
  return ids.map((id) => ({
    elastic: recordById('elastic', id),
    estimated: estimated.includes(id),
    rolls: result.elastic
      .filter(({ roll }) => rolls[roll].elastic === id)
      .map(({ roll, times, roll_length, left, cuts }) => ({
        roll: rolls[roll].roll,
        times,
        length: roll_length,
        left,
        stops: cuts.map(({ length, count }) => ({ length, count, sizes: namesOf(sizesWith(plan, id, length)) })),
      })),
  }));
}

/** The sizes that take an elastic, of all lengths or of one: [id]. */
export function sizesWith({ given, strips }, id, length = null) {
  const takes = (strip) => strip.elastic_name === id && (length === null || strip.elastic === length);
  return sizesOf(strips.filter((_, index) => takes(given.strips[index])));
}

/** Names of the sizes for which it is not known which elastic they take. */
export const sizesWithout = ({ given, strips }) => namesOf(sizesOf(strips.filter((_, index) => !given.strips[index].elastic_name)));

const sizesOf = (strips) => [...new Set(strips.map(({ size }) => size))];
const namesOf = (sizes) => [...new Set(sizes.map((size) => recordById('piece', size).name))];

/** Whether any elastic is put in. */
export const knowsElastic = () => records('elastic').length > 0;

/** Rolls as a shop is asked for them: 2 rolls of 50 m. */
export async function boughtInWords(count, length) {
  const [words] = await lengthsInWords([length], 'm');
  return `${countInWords(count, 'roll')} of ${words}`;
}

/** An elastic's rolls with their lengths in words: {…roll, words: {length, left, stops: [length]}} each. */
export async function rollsInWords(rolls) {
  const long = await lengthsInWords(
    rolls.flatMap(({ length, left }) => [length, left]),
    'm',
  );
  const stops = await lengthsInWords(
    rolls.flatMap((roll) => roll.stops.map(({ length }) => length)),
    'mm',
  );
  return rolls.map((roll, index) => ({
    ...roll,
    words: { length: long[2 * index], left: long[2 * index + 1], stops: stops.splice(0, roll.stops.length) },
  }));
}
