/* Lets a screen follow the records and facts, and paint again when they change. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { factsOf } from '../../data/facts.js';
import { onRecords } from '../../data/records.js';
import { say } from './notice.js';

/** What `ask` resolves to, asked again whenever something was kept or came; null until it is known.
    With other values in `watched` it is asked anew, and what was told stays until then. */
export function useFollowed(ask, watched) {
  const [told, setTold] = useState(null);
  useEffect(() => {
    let latest = null;
    const read = () => {
      const mine = ask();
      latest = mine;
      // a slower answer to what was so before is not shown
      mine.then(
        (answer) => mine === latest && setTold(answer),
        (error) => mine === latest && say(error.message, { bad: true }),
      );
    };
    read();
    const stop = onRecords(read);
    return () => {
      latest = null;
      stop();
    };
  }, watched);
  return told;
}

/** As `useFollowed`, where `ask` takes who shows what was told before something changed: {told, before}, before where that
    is all there is yet. */
export function useFollowedSoon(ask, watched) {
  const [was, showBefore] = useState(null);
  const told = useFollowed(() => ask(showBefore), watched);
  return { told: told ?? was, before: told === null && was !== null };
}

/** Facts of one kind, newest first; null until they have been read. */
export const useFacts = (kind) => useFollowed(() => factsOf(kind), [kind]);

/** Paint again whenever a record changes. */
export function useRecords() {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onRecords(again), []);
}
