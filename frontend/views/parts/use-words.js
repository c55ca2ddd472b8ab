/* Words that the core writes for a value already kept. */
import { useLayoutEffect, useState } from 'preact/hooks';

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
