/* Lets a screen follow the records and paint again when they change. */
import { useEffect, useReducer } from 'preact/hooks';
import { onRecords } from '../../data/records.js';

export function useRecords() {
  const [, again] = useReducer((count) => count + 1, 0);
  useEffect(() => onRecords(again), []);
}
