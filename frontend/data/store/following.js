// @ts-check
/* Who follows what is kept: listeners in this page, and other windows. */
import { STORE } from './which.js';

/** @typedef {(made: OwnChange[] | null) => unknown} Listener */

/** @type {Set<Listener>} */
const listeners = new Set();

/** Windows on the same store; each is told of what this one wrote, and reads it anew. */
export const otherWindows = new BroadcastChannel(`${STORE}-kept`);
/** What they are told once the invented year is left. */
export const LEFT = 'left';

/** Be told after each change, and waited for; returns the way to stop. The listener gets the own
    changes that were just made, or null where anything may have changed.
    @param {Listener} listener */
export function subscribe(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Tell those in this page; a write is over only when they have followed.
    @param {OwnChange[] | null} made */
export function notify(made) {
  return Promise.all([...listeners].map((listener) => listener(made)));
}
