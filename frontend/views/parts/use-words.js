/* Words that the core writes for a value already kept. */
import { useEffect, useState } from 'preact/hooks';

export function useWords(ask, watched) {
  const [words, setWords] = useState('');
  useEffect(() => {
    let current = true;
    Promise.resolve(ask()).then((told) => current && setWords(told));
    return () => {
      current = false;
    };
  }, watched);
  return words;
}
