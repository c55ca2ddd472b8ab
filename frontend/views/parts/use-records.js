/* Lets a screen follow the records and facts, and paint again when they change. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { factsOf } from '../../data/facts.js';
import { onRecords } from '../../data/records.js';
import { say } from './notice.js';

/** What `ask` resolves to, asked again whenever something was kept or came: [told, trouble], told null until it is known.
    With other values in `watched` it is asked anew, and what was told stays until then. Trouble is null, or what `Refused`
    shows of the last asking, {problem, again}. A third says whether what is told is of what is watched now. */
export function useAsked(ask, watched) {
  const [{ told, of }, setTold] = useState(NOTHING_TOLD);
  const [problem, setProblem] = useState(null);
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let latest = null;
    const end = (mine, answer, error) => {
      // a slower answer to what was so before is not shown
      if (mine !== latest) return;
      if (!error) setTold({ told: answer, of: watched });
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
    setTold(NOTHING_TOLD);
    setProblem(null);
    setAttempt(attempt + 1);
  };
  return [told, problem && { problem, again }, watched.every((value, index) => value === of[index])];
}

const NOTHING_TOLD = { told: null, of: [NaN] };

/** The same where a notice tells of trouble, and the screen shows what it has: [told, whether it is of what is watched now],
    told null before. */
export function useFollowing(ask, watched) {
  const [told, trouble, isOfNow] = useAsked(ask, watched);
  useEffect(() => {
    if (trouble) say(trouble.problem.message, { bad: true });
  }, [trouble?.problem]);
  return [told, isOfNow];
}

/** What it is told, alone. */
export const useFollowed = (ask, watched) => useFollowing(ask, watched)[0];

/** As `useAsked`, where `ask` takes who shows what was told before something changed: {told, before, isOfNow, trouble}, before
    where that is all there is yet. */
export function useAskedSoon(ask, watched) {
  const [was, showBefore] = useState(null);
  const [told, trouble, isOfNow] = useAsked(() => ask(showBefore), watched);
  return { told: told ?? was, before: told === null && was !== null, isOfNow, trouble };
}

/** Facts of one kind, newest first; null until they have been read. */
export const useFacts = (kind) => useFollowed(() => factsOf(kind), [kind]);

/** Paint again whenever a record changes. */
export function useRecords() {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onRecords(again), []);
}
