/* Changing a batch that is open: what is said of it so far is kept until it is saved, its laps always. */
import { edit } from './actions.js';
import { ask } from './asking.js';
import { asSewn, factsOfBatch, freeStrips, linesOf, stepsOf } from './batches.js';
import { changed } from './changes.js';
import { recordById } from './records.js';
import { recall, remember } from './store.js';

const slot = (id) => `batch-change:${id}`;

/** What is to be otherwise, as far as it was said: {lines, typed (as in a draft), method, needle, bobbin, people, needed}. */
export const changeOf = (id) => recall(slot(id), {});
export const keepChange = (id, change) => remember(slot(id), change);
export const dropChange = (id) => remember(slot(id), {});

/** Strips that a batch could have: those of no other batch. */
export const stripsFor = (id) => freeStrips(id);

const keyOf = ({ size, cloth }) => `${size} ${cloth}`;

/** A batch as a draft: what of its lines waits as strips is ticked, the rest was typed. */
export function asDraft({ lines, method, needle, bobbin, people, needed }, free) {
  const left = Object.fromEntries(free.map(({ key, quantity }) => [key, quantity]));
  const [ticked, typed] = [{}, []];
  for (const line of lines) {
    const key = keyOf(line);
    const here = Math.min(left[key] ?? 0, line.quantity);
    if (here) {
      ticked[key] = (ticked[key] ?? 0) + here;
      left[key] -= here;
    }
    if (line.quantity > here) typed.push({ size: line.size, cloth: line.cloth, quantity: line.quantity - here });
  }
  return { lines: ticked, typed, method: method ?? '', needle: needle ?? '', bobbin: bobbin ?? '', people, needed: needed ?? '' };
}

/** What a draft changes of a batch: the fields that become others, with the lines' products as they were named. */
export function changeMade(batch, draft, free) {
  const { lines, typed } = asDraft(batch, free);
  const asItWas = JSON.stringify(linesOf({ lines, typed }, free)) === JSON.stringify(linesOf(draft, free));
  const named = (line) => ({ ...line, product: batch.lines.find((one) => keyOf(one) === keyOf(line))?.product ?? null });
  return changed(batch, {
    method: draft.method || null,
    needle: draft.needle || null,
    bobbin: draft.bobbin || null,
    people: draft.people,
    needed: draft.needed || null,
    lines: asItWas ? batch.lines : together(linesOf(draft, free)).map(named),
  });
}

// what is ticked and what is typed of one size and cloth is one line
function together(lines) {
  const found = new Map();
  for (const line of lines) found.set(keyOf(line), { ...line, quantity: line.quantity + (found.get(keyOf(line))?.quantity ?? 0) });
  return [...found.values()];
}

/** What becomes of a batch's laps, as the core's `batch_change` tells. */
export async function lapsIfChanged(batch, fields) {
  const next = { ...batch, ...fields };
  const laps = await factsOfBatch('batch-step', batch.id);
  return ask('batch_change', { batch: asSewn(batch), changed: { lines: asSewn(next).lines }, method_steps: stepsOf(next), laps });
}

/** Change a batch; resolves to the way back. */
export async function changeBatch(id, fields) {
  const batch = recordById('batch', id);
  const before = Object.fromEntries(Object.keys(fields).map((name) => [name, batch[name] ?? null]));
  await edit('batch', id, fields);
  await dropChange(id);
  return () => edit('batch', id, before);
}
