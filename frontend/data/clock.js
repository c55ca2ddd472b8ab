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

/** Now, in UTC milliseconds, never before the last time told. */
function now() {
  return Math.max(Date.now(), recall('clock', { ms: 0 }).ms);
}

/** The next event time and hybrid logical stamp `{ms}-{counter}-{device}`, ordered as text. */
export function nextStamp() {
  const last = recall('clock', { ms: 0, counter: -1 });
  const ms = now();
  const counter = ms === last.ms ? last.counter + 1 : 0;
  remember('clock', { ms, counter });
  const text = `${String(ms).padStart(13, '0')}-${String(counter).padStart(4, '0')}-${deviceId()}`;
  return { at: ms, stamp: text };
}

/** Today's local date as YYYY-MM-DD. */
export function today() {
  const date = new Date();
  const two = (value) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
