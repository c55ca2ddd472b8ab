/* Words that the core writes for a value already kept. */
import { useLayoutEffect, useState } from 'preact/hooks';
import { lengthsInWords } from '../../data/calculating.js';

const NOT_KNOWN_YET = '…';

/** Lengths in words, each an ellipsis until the core has written it. */
export function useLengths(lengths, unit) {
  const words = useWords(() => lengthsInWords(lengths, unit), [lengths.join(), unit]);
  return lengths.map((_, index) => words[index] ?? NOT_KNOWN_YET);
}

// before the paint where they are known, so that nothing moves
export function useWords(ask, watched) {
  const [words, setWords] = useState('');
  useLayoutEffect(() => {
    let current = true;
    Promise.resolve(ask()).then((told) => current && setWords(told));
    return () => {
      current = false;
    };
  }, watched);
  return words;
}
