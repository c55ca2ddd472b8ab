/* Lets a screen follow the records and facts, and paint again when they change. */
import { useEffect, useReducer, useState } from 'preact/hooks';
import { factsOf } from '../../data/facts.js';
import { onRecords } from '../../data/records.js';

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
