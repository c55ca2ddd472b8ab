/* A long calculation, a little at a time, so that other questions get through and it can be stopped. */
import { call } from '../core/core-client.js';
import { ask } from './asking.js';

// far under a twentieth of a second on the worker
const STEPS_AT_ONCE = 60;

/** Ask a long calculator. `show` is told each state, {result, notes, done}, the first at once,
    until it is done or `stopped()` says so. Throws where the core refuses. */
export async function search(name, given, show, stopped) {
  const { answer, problems } = await call('begin', { name, given });
  if (problems) throw new Error(`This plan is too much at once, or a cloth is too small: ${problems[0].field}`);
  for (let told = answer; !stopped(); told = await ask('work_on', { steps: STEPS_AT_ONCE })) {
    show(told);
    if (told.done) return;
  }
}
