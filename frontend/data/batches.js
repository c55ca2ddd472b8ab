/* Batches: starting one from strips that wait, how it is sewn, where it stands, and what came of it. */
import { edit, keepTogether, state } from './actions.js';
import { ask, askOnce } from './asking.js';
import { calculatorNamed } from './calculating.js';
import { newId, today } from './clock.js';
import { stripsWaiting } from './cuts.js';
import { factsOf, factsWithVoids } from './facts.js';
import { trayNow } from './laps.js';
import { countInWords, nameOf } from './naming.js';
import { recordById, records, recordsOf } from './records.js';
import { recall, remember } from './store/remembered.js';

// facts of batches before, the latest, that times are worked out from
const MOST_BEFORE = 400;
const NOTHING = { lines: {}, typed: [], method: '', needle: '', bobbin: '', people: 1, needed: '', steps: null };

/** Batches that are sewn, in the order of their making. */
export const openBatches = () => records('batch').filter(isOpen);
export const isOpen = ({ state: standing }) => standing !== 'finished';

/** What was chosen so far of a batch to start: {lines ({strips: pieces}), typed ([{size, cloth, quantity}]), method, needle, bobbin,
    people, needed, steps (null while they are the usual ones)}. */
export const draftOfBatch = () => ({ ...NOTHING, method: records('method').at(-1)?.id ?? '', ...recall('batch-draft') });
export const keepDraftOfBatch = (draft) => remember('batch-draft', draft);

/** Strips that wait and no open batch has, but one that is left out of them: [{key, size, cloth, quantity, claimed}].
    `of` reads the facts of a kind. */
export async function freeStrips(but = null, of = factsOf) {
  const open = openBatches().filter(({ id }) => id !== but);
  const made = (await factsWithVoids('batch-result', of)).filter((result) => !result.never && open.some(({ id }) => id === result.batch));
  const { product: products } = recordsOf(['product']);
  const rows = await ask('free_strips', { waiting: await stripsWaiting(of), sewing: open.map(asSetUp), results: made, products });
  return rows.map((row) => ({ ...row, key: `${row.size} ${row.cloth}` }));
}

/** The usual steps, where nobody has said another way. */
export const usualSteps = () => askOnce('usual-steps', 'usual_steps');

/** The lines of a draft: what is ticked of strips that wait, never more than wait, and what was typed. */
export function linesOf(draft, free) {
  const ticked = free.map(({ key, size, cloth, quantity }) => ({ size, cloth, quantity: Math.min(draft.lines[key] ?? 0, quantity) }));
  return [...ticked, ...draft.typed].filter(({ quantity }) => quantity > 0);
}

/** Start a batch; with `method` the steps are kept as a method of that name. Resolves to its id. */
export async function startBatch(draft, lines, method = null) {
  const numbers = records('batch', true).map(({ number }) => ({ number }));
  const [id, way] = [newId(), method ? newId() : draft.method || null];
  const fields = {
    number: await ask('next_number', { sewing: numbers }),
    method: way,
    needle: draft.needle || null,
    bobbin: draft.bobbin || null,
    people: draft.people,
    lines,
    needed: draft.needed || null,
  };
  await keepTogether({ described: [...(method ? [['method', method, way]] : []), ['batch', fields, id]] });
  await keepDraftOfBatch({ method: way ?? '', needle: draft.needle, bobbin: draft.bobbin, people: draft.people });
  return id;
}

/** What is sewn in a batch: 24 × Everyday Seagrass lawn. */
export const sewnInWords = ({ lines }) =>
  (lines ?? [])
    .map(({ size, cloth, product, quantity }) => `${quantity} × ${nameOf('product', product ? recordById('product', product) : { size, cloth })}`)
    .join(', ');

const linesAsSewn = (lines) => (lines ?? []).map(({ size, cloth, product, quantity }) => ({ size, cloth, product, quantity }));
export const asSewn = ({ lines, people }) => ({ lines: linesAsSewn(lines), people });
const asSetUp = ({ id, number, needle, bobbin, method, needed, lines }) => ({
  id,
  number,
  needle,
  bobbin,
  method,
  needed,
  lines: linesAsSewn(lines),
});
export const stepsOf = ({ method }) =>
  (recordById('method', method)?.steps ?? []).map(({ name, per, machine, allowance }) => ({ name, per, machine, allowance }));

/** Facts of a kind about a batch that stand, the latest first. */
export const factsOfBatch = async (kind, batch) => (await factsWithVoids(kind)).filter((fact) => fact.batch === batch && !fact.never);

/** Where a batch stands, as the core's `batch_standing` tells. */
export async function standingOf(batch) {
  const laps = await factsOfBatch('batch-step', batch.id);
  return ask('batch_standing', { batch: asSewn(batch), method_steps: stepsOf(batch), laps });
}

/** When a batch is ready if it goes on now: {finish (UTC ms, null for nothing left), words (what that is known from)}. */
export async function finishTime(batch, standing) {
  const timed = new Set(standing.laps.filter(({ disturbed }) => !disturbed).map(({ step }) => step));
  const untimed = new Set(standing.steps.map(({ name }) => name).filter((name) => !timed.has(name)));
  const all = (await factsWithVoids('batch-step')).filter(({ never }) => !never);
  const laps = all.filter((fact) => fact.batch === batch.id);
  const before = all.filter((fact) => fact.batch !== batch.id && untimed.has(fact.step)).slice(0, MOST_BEFORE);
  const told = await ask('finish_time', {
    batch: asSewn(batch),
    method_steps: stepsOf(batch),
    laps,
    before,
    tray: trayNow(),
    now: Date.now(),
  });
  const { sources } = told;
  const words = [
    sources.laps && `from ${countInWords(told.timed, 'lap')} of this batch`,
    sources.before && `${countInWords(sources.before, 'step')} from batches before`,
    sources.guess && `${countInWords(sources.guess, 'step')} guessed, not timed yet`,
  ];
  return { finish: told.finish, words: words.filter(Boolean).join(', ') };
}

/** What came of a batch: its results, the latest first. */
export const resultsOf = ({ id }) => factsOfBatch('batch-result', id);

/** What a batch still comes to: [{product (null where size and cloth have none), size, cloth, quantity, made}]. */
export async function finishedLines(batch) {
  const { sewn } = await standingOf(batch);
  const goods = [...records('product')].sort((a, b) => b.active - a.active).map(({ id, size, cloth }) => ({ id, size, cloth }));
  // where nobody timed it all of it is sewn
  const { product: products } = recordsOf(['product']);
  return ask('finished_lines', { batch: asSewn(batch), goods, sewn: sewn || null, results: await resultsOf(batch), products });
}

/** What was said so far of what came of a batch: {index of its line: {made, good, price}}. */
export const saidOf = (batch) => recall(`finish:${batch}`, {});
export const keepSaid = (batch, said) => remember(`finish:${batch}`, said);

/** Record what came of a batch: {product, size, cloth, price (of a new product), made, good} each; with `stays` lines of
    it are still to come, and it stays open. Resolves to what `undoFinish` takes back. */
export async function finishBatch(batch, place, lines, stays = false) {
  const added = lines.filter(({ product }) => !product).map((line) => ({ ...line, id: newId() }));
  const idOf = (line) => line.product ?? added.find(({ size, cloth }) => size === line.size && cloth === line.cloth).id;
  const result = newId();
  await keepTogether({
    facts: [
      [
        'batch-result',
        { day: today(), batch: batch.id, place, lines: lines.map((line) => ({ product: idOf(line), made: line.made, good: line.good })) },
        result,
      ],
    ],
    described: added.map(({ id, size, cloth, price, group }) => ['product', { size, cloth, price, group }, id]),
    edited: stays ? [] : [['batch', batch.id, { state: 'finished' }]],
  });
  keepSaid(batch.id, {});
  remember('batch-place', place);
  return { result, batch: batch.id, added: added.map(({ id }) => id) };
}

/** Say that a batch's result is void: its goods go, its strips wait again, and it is open. */
export function undoFinish({ result, batch, added = [] }, reason = 'undone at once') {
  return keepTogether({
    facts: [['batch-void', { day: today(), result, reason }]],
    edited: [['batch', batch, { state: 'open' }], ...added.map((id) => ['product', id, { archived: true }])],
  });
}

/** Say that nothing of a batch is still to come. */
export const closeBatch = (id) => edit('batch', id, { state: 'finished' });

/** Take a batch out of the lists: its strips wait again. */
export const dropBatch = (id, on = true) => edit('batch', id, { archived: on });

/** The order of open batches with the fewest set-ups, as `batch-order` tells; null for fewer than two. */
export async function orderOfBatches() {
  const open = openBatches();
  if (open.length < 2) return null;
  const last = records('batch', true).findLast((batch) => !isOpen(batch)) ?? null;
  return ask('answer', { name: 'batch-order', given: await ask('set_ups', { sewing: open.map(asSetUp), last: last && asSetUp(last) }) });
}

/** What was tapped of a sample so far: {first (of the pieces looked at), faults ([what was wrong, '' for good]), aql (the share of
    bad pieces that may pass, percent; as it was chosen last)}. */
export const sampleOf = (batch) => ({ aql: recall('aql', declaredAql().default), ...recall(sampleSlot(batch), NO_SAMPLE) });
export const keepSample = (batch, sample) => remember(sampleSlot(batch), sample);
const sampleSlot = (batch) => `sample:${batch}`;
const NO_SAMPLE = { first: 1, faults: [] };

/** How strict a sample can be: shares of bad pieces that may pass, the strictest first. */
export const aqlChoices = () => declaredAql().choices;
export const keepAql = (aql) => remember('aql', aql);
const declaredAql = () => calculatorNamed('sample-check').inputs.find(({ name }) => name === 'aql');

/** Record what a sample came to. */
export function recordSample(batch, { sample, accept, verdict }, faults) {
  const kinds = [...new Set(faults.filter(Boolean))];
  const found = kinds.map((fault) => ({ fault, quantity: faults.filter((one) => one === fault).length }));
  return state('sample-result', { day: today(), batch, sample, accept, found, verdict }, { [sampleSlot(batch)]: NO_SAMPLE });
}
