/* Changing a batch that is open: what is said of it so far is kept until it is saved, its laps always. */
import { edit } from './actions.js';
import { ask } from './asking.js';
import { asSewn, factsOfBatch, freeStrips, isOpen, linesOf, stepsOf } from './batches.js';
import { changed } from './changes.js';
import { recordById } from './records.js';
import { recall, remember } from './store/remembered.js';

const slot = (id) => `batch-change:${id}`;

/** What is to be otherwise, as far as it was said: {lines, typed (as in a draft), method, needle, bobbin, people, needed}. */
export const changeOf = (id) => recall(slot(id), {});
export const keepChange = (id, change) => remember(slot(id), change);
export const dropChange = (id) => remember(slot(id), {});

const keyOf = ({ size, cloth }) => `${size} ${cloth}`;

// what of a batch's lines waits as strips is ticked, the rest was typed
function asDraft({ lines, method, needle, bobbin, people, needed }, free) {
  const left = Object.fromEntries(free.map(({ key, quantity }) => [key, quantity]));
  const [ticked, typed] = [{}, []];
  for (const line of lines ?? []) {
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

// the fields that become others by a draft, with the lines' products as they were named
function changeMade(batch, draft, free) {
  const { lines, typed } = asDraft(batch, free);
  const asItWas = JSON.stringify(linesOf({ lines, typed }, free)) === JSON.stringify(linesOf(draft, free));
  const named = (line) => ({ ...line, product: batch.lines?.find((one) => keyOf(one) === keyOf(line))?.product ?? null });
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

/** What a change of a batch comes to: {batch, free, draft, fields, laps}, the batch alone where it is not here or not open. */
export async function changeTold(id, change) {
  const batch = recordById('batch', id);
  if (!batch || batch.archived || !isOpen(batch)) return { batch };
  const free = await freeStrips(id);
  const draft = { ...asDraft(batch, free), ...change };
  const fields = changeMade(batch, draft, free);
  return { batch, free, draft, fields, laps: await lapsIfChanged(batch, fields) };
}

// what becomes of its laps, as the core's `batch_change` tells
async function lapsIfChanged(batch, fields) {
  const next = { ...batch, ...fields };
  const laps = await factsOfBatch('batch-step', batch.id);
  return ask('batch_change', { batch: asSewn(batch), changed: { lines: asSewn(next).lines }, method_steps: stepsOf(next), laps });
}

/** Change a batch by what was said last, whatever of it is on the screen yet; resolves to the way back. Where that changes
    nothing, or leaves too few pieces, it stays as it is: null. */
export async function changeBatch(id) {
  const { batch, fields, laps } = await changeTold(id, changeOf(id));
  if (!laps?.enough || !Object.keys(fields).length) return null;
  const before = Object.fromEntries(Object.keys(fields).map((name) => [name, batch[name] ?? null]));
  await edit('batch', id, fields);
  await dropChange(id);
  return () => edit('batch', id, before);
}
