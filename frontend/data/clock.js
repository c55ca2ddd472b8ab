/* The phone's clock: event times that never go back, and stamps that order edits. */
import newId from 'uuid/v7';
import { recall, remember } from './store.js';

export { newId };

/** This phone's own id, made on its first minute. */
export function deviceId() {
  let id = recall('device');
  if (!id) {
    id = newId();
    remember('device', id);
  }
  return id;
}

/** The next event time, never before the last one, and its hybrid logical stamp
    `{ms}-{counter}-{device}`, ordered as text; `clock` is to be kept with what is stamped. */
export function nextStamp() {
  const last = recall('clock', { ms: 0, counter: -1 });
  const at = Math.max(Date.now(), last.ms);
  const counter = at === last.ms ? last.counter + 1 : 0;
  const stamp = `${String(at).padStart(13, '0')}-${String(counter).padStart(4, '0')}-${deviceId()}`;
  return { at, stamp, clock: { ms: at, counter } };
}

/** Today's local date as YYYY-MM-DD. */
export function today() {
  const date = new Date();
  const two = (value) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
