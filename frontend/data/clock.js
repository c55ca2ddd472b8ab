// @ts-check
/* The phone's clock: event times that never go back, and stamps that order edits. */
import newId from 'uuid/v7';
import { recall, remember } from './store/remembered.js';

export { newId };

/** Beyond this a clock counts as wrong: it is said, and set right even if it then goes back. */
export const CLOCK_OFF_MS = 2 * 60 * 1000;

// a stamp has four digits for what was stamped in one millisecond
const MOST_COUNTED = 9999;

/** This phone's own id, made on its first minute.
    @returns {string} */
export function deviceId() {
  let id = recall('device');
  if (!id) {
    id = newId();
    remember('device', id);
  }
  return id;
}

/** How far this phone's clock was off when it was last compared, in ms, below nothing where it is slow; 0 where that is little. */
export function clockOff() {
  const { offset = 0 } = recall('exchanged') ?? {};
  return Math.abs(offset) > CLOCK_OFF_MS ? -offset : 0;
}

/** The time zone of the phone, by which days and hours are told. */
export const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The time, UTC ms, by the server's clock as far as it is known. */
export function now() {
  return Date.now() + (recall('exchanged')?.offset ?? 0);
}

/** How far the server's clock is from this phone's, in ms, from when it was asked, what it told and
    when that was heard. It told its time somewhere in between: what that alone explains is no
    difference, or two phones on a slow line would put their edits in the wrong order.
    @param {number} asked
    @param {number} told
    @param {number} heardAt */
export function offsetOf(asked, told, heardAt) {
  const offset = Math.round(told - (asked + heardAt) / 2);
  return Math.abs(offset) > (heardAt - asked) / 2 + 1 ? offset : 0;
}

/** The next event time, never before the last one, and its hybrid logical stamp
    `{ms}-{counter}-{device}`, ordered as text (Kulkarni, Demirbas et al., "Logical Physical Clocks",
    OPODIS 2014); `clock` is to be kept with what is stamped.
    Only a clock that was set right by more than two minutes goes back; `set_right` says when.
    @param {Clock} last
    @returns {{at: number, stamp: string, clock: Clock}} */
export function nextStamp(last = recall('clock', { ms: 0, counter: -1 })) {
  const time = now();
  const back = (last.at ?? last.ms) - time > CLOCK_OFF_MS;
  const at = back ? time : Math.max(time, last.at ?? last.ms);
  const heard = last.ms - time > CLOCK_OFF_MS ? time : Math.max(time, last.ms);
  // of a millisecond that another phone counted out the next one is later
  const ms = heard === last.ms && last.counter >= MOST_COUNTED ? heard + 1 : heard;
  const counter = ms === last.ms ? last.counter + 1 : 0;
  const clock = { at, ms, counter, set_right: back ? time : last.set_right };
  return { at, stamp: stampOf(ms, counter), clock };
}

/** The clock after stamps were heard of: what is stamped next is later than all of them.
    @param {string[]} stamps
    @returns {Clock} */
export function heard(stamps) {
  const last = recall('clock', { ms: 0, counter: -1 });
  // biome-ignore lint/complexity/useMathMinMax: stamps are texts
  const latest = stamps.reduce((a, b) => (a > b ? a : b), '').split('-');
  const [ms, counter] = [Number(latest[0]), Number(latest[1] ?? 0)];
  // a stamp as the log has it is at most a minute ahead; older logs are not believed more
  if (ms - now() > CLOCK_OFF_MS || ms < last.ms || (ms === last.ms && counter <= last.counter)) return last;
  return { at: last.at ?? last.ms, ...last, ms, counter };
}

/** @param {number} ms
    @param {number} counter */
function stampOf(ms, counter) {
  return `${String(ms).padStart(13, '0')}-${String(counter).padStart(4, '0')}-${deviceId()}`;
}

/** Today's local date as YYYY-MM-DD. */
export const today = () => dayOf(Date.now());

/** The local date of a time (UTC ms).
    @param {number} at */
export function dayOf(at) {
  const date = new Date(at);
  const two = (/** @type {number} */ value) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
