/* Thread: what open batches and the plan take of it, and what is on the spools. */
import { ask } from './asking.js';
import { cutting } from './cutting.js';
import { recordsOf } from './records.js';
import { recall, remember } from './store/remembered.js';

/** The thread that is chosen for a cloth, {cloth: thread}. */
export const chosenThreads = () => recall('thread-of-cloth', {});

/** As the core's `thread_of_plan` tells: {threads, cloths}. */
export function threadOfPlan() {
  const wanted = cutting().wanted.filter(({ size, cloth, quantity }) => size && cloth && quantity);
  return ask('thread_of_plan', { records: recordsOf(['batch', 'piece', 'thread']), wanted, choices: chosenThreads() });
}

/** Sew a cloth of the plan with a thread. */
export const sewWith = (cloth, thread) => remember('thread-of-cloth', { ...chosenThreads(), [cloth]: thread });
