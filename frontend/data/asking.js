/* Asking the core, and remembering what it answered last. */
import { call } from '../core/core-client.js';
import { recall, remember } from './store.js';

const version = document.documentElement.dataset.version;

/** Ask the core. Resolves to its answer; throws where it refuses the question. */
export async function ask(method, args = {}) {
  const { answer, problems } = await call(method, args);
  if (problems) throw new Error(`This cannot be worked out: ${method}, ${problems[0].field}: ${problems[0].rule}`);
  return answer;
}

/** Ask the core what it may have been asked here before. The same question to the same
    version has the same answer, so a start need not wait for the core. */
export async function askOnce(slot, method, args = {}) {
  const key = `answer:${slot}`;
  const asked = JSON.stringify(args);
  const last = recall(key);
  if (last?.version === version && last.asked === asked) return last.answer;
  const answer = await ask(method, args);
  remember(key, { version, asked, answer });
  return answer;
}
