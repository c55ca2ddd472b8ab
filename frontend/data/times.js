/* What sewing takes: the minutes of each step of each method, and methods compared. */
import { ask } from './asking.js';
import { factsOf } from './facts.js';
import { recordsOf } from './records.js';

const FACTS = ['batch-step', 'batch-result', 'batch-step-void', 'batch-void', 'left-out'];

/** As the core's `times_of_methods` tells: {methods, compared}. */
export async function timesOfMethods() {
  const facts = (await Promise.all(FACTS.map(factsOf))).flat();
  return ask('times_of_methods', { facts, records: recordsOf(['method', 'batch']) });
}
