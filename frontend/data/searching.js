/* A long calculation, a little at a time, so that other questions get through and it can be stopped. */
import { call } from '../core/core-client.js';
import { ask, askTimed } from './asking.js';
import { problemsInWords } from './calculating.js';

const FIRST_STEPS = 50;
const MOST_STEPS = 2000;
// what a slice should take of the worker, and how often a better answer is told: to write one takes long, too
const SLICE_MS = 25;
const TELL_AFTER_MS = 500;

// the core holds one at a time: to begin another lets this one go
let latest = null;

/** Ask a long calculator. `show` is told its states, {result, notes, done}, the first at once,
    until it is done, another is begun, or `stopped()` says so. `first`: the steps of the first slice, fewer where one is
    long. Throws where the core refuses. */
export async function search(name, given, show, stopped, first = FIRST_STEPS) {
  const mine = {};
  latest = mine;
  const over = () => stopped() || latest !== mine;
  const { answer, problems } = await call('begin', { name, given });
  if (problems) throw new Error(`This cannot be worked out: ${await problemsInWords(problems)}`);
  let told = answer;
  let steps = first;
  while (!over()) {
    show(told);
    if (told.done) return;
    const until = performance.now() + TELL_AFTER_MS;
    let done = false;
    while (!done && !over() && performance.now() < until) {
      const slice = await askTimed('work_on', { steps, tell: false });
      done = slice.answer.done;
      steps = stepsFor(steps, slice.took);
    }
    if (!over()) told = await ask('work_on', { steps: 0 });
  }
}

const stepsFor = (steps, took) => Math.max(1, Math.min(MOST_STEPS, 2 * steps, Math.round((steps * SLICE_MS) / Math.max(took, 1))));
