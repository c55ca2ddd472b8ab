/* Lets a screen follow the records and facts, and paint again when they change. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { factsOf } from '../../data/facts.js';
import { onRecords } from '../../data/records.js';
import { say } from './notice.js';

/** What `ask` resolves to, asked again whenever something was kept or came: [told, trouble], told null until it is known.
    With other values in `watched` it is asked anew, and what was told stays until then. Trouble is null, or what `Refused`
    shows of the last asking, {problem, again}. */
export function useAsked(ask, watched) {
  const [told, setTold] = useState(null);
  const [problem, setProblem] = useState(null);
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let latest = null;
    const end = (mine, answer, error) => {
      // a slower answer to what was so before is not shown
      if (mine !== latest) return;
      if (!error) setTold(answer);
      setProblem(error);
    };
    const read = () => {
      const mine = ask();
      latest = mine;
      mine.then(
        (answer) => end(mine, answer, null),
        (error) => end(mine, null, error),
      );
    };
    read();
    const stop = onRecords(read);
    return () => {
      latest = null;
      stop();
    };
  }, [...watched, attempt]);
  const again = () => {
    setTold(null);
    setProblem(null);
    setAttempt(attempt + 1);
  };
  return [told, problem && { problem, again }];
}

/** The same where a notice tells of trouble, and the screen shows what it has: what was told last, null before. */
export function useFollowed(ask, watched) {
  const [told, trouble] = useAsked(ask, watched);
  useEffect(() => {
    if (trouble) say(trouble.problem.message, { bad: true });
  }, [trouble?.problem]);
  return told;
}

/** Facts of one kind, newest first; null until they have been read. */
export const useFacts = (kind) => useFollowed(() => factsOf(kind), [kind]);

/** Paint again whenever a record changes. */
export function useRecords() {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onRecords(again), []);
}
