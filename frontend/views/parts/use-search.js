/* A long calculation on a screen: what it has told so far; it stops when the screen is left or the question changes. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { say } from './notice.js';

/** Run `begin(show, stopped)`, again where `watched` changes; {told, stop}, told as last shown, null before. */
export function useSearch(begin, watched) {
  const [told, setTold] = useState(null);
  const running = useRef(null);
  useLayoutEffect(() => {
    const mine = { stopped: false };
    // what was told of another question is no answer to this one
    setTold(null);
    running.current = mine;
    begin((next) => !mine.stopped && setTold(next), () => mine.stopped).catch((error) => {
      setTold(null);
      say(error.message, { bad: true });
    });
    return () => {
      mine.stopped = true;
    };
  }, watched);
  const stop = () => {
    running.current.stopped = true;
    setTold({ ...told, done: true });
  };
  return { told, stop };
}
