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
    let current = true;
    const read = async () => {
      try {
        const answer = await ask();
        if (current) setTold(answer);
      } catch (error) {
        say(error.message, { bad: true });
      }
    };
    read();
    const stop = onRecords(read);
    return () => {
      current = false;
      stop();
    };
  }, watched);
  return told;
}

/** Facts of one kind, newest first; null until they have been read. */
export function useFacts(kind) {
  const [facts, setFacts] = useState(null);
  useEffect(() => {
    const read = () => factsOf(kind).then(setFacts);
    read();
    return onRecords(read);
  }, [kind]);
  return facts;
}

export function useRecords() {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onRecords(again), []);
}
