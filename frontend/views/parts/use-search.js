/* A long calculation on a screen: what it has told so far; it stops when the screen is left or the question changes. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';

/** Run `begin(show, stopped)`, again where `watched` changes: {told, problem, stop}, told as last shown, null before,
    problem in words where it is refused; `stop()` keeps the best so far and returns it. */
export function useSearch(begin, watched) {
  const [told, setTold] = useState(null);
  const [problem, setProblem] = useState(null);
  const running = useRef(null);
  useLayoutEffect(() => {
    const mine = { stopped: false };
    // what was told of another question is no answer to this one
    setTold(null);
    setProblem(null);
    running.current = mine;
    begin(
      (next) => !mine.stopped && setTold(next),
      () => mine.stopped,
    ).catch((error) => !mine.stopped && setProblem(error.message));
    return () => {
      mine.stopped = true;
    };
  }, watched);
  const stop = () => {
    running.current.stopped = true;
    const last = { ...told, done: true };
    setTold(last);
    return last;
  };
  return { told, problem, stop };
}
