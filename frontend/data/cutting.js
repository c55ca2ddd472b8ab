/* Cutting: what is to be cut, the layout found for it, and how far its cuts are made; kept on this phone. */
import { keepTogether } from './actions.js';
import { ask, askOnce } from './asking.js';
import { calculatorNamed, declared, kindNamed, lengthsInWords } from './calculating.js';
import { newId, today } from './clock.js';
import { voidCuts } from './cuts.js';
import { factsOf } from './facts.js';
import { countInWords, nameOf, nameWithDay } from './naming.js';
import { firstUnit } from './preferences.js';
import { recordById, records } from './records.js';
import { search } from './searching.js';
import { recall, remember } from './store/remembered.js';

/** Which cutting: the plan of Buy and Make. */
export const PLAN = 'cutting';
/** Which cutting: a remnant that is cut by itself. */
export const REMNANT = 'remnant-cutting';
const CUTS = { [PLAN]: '/make/cutting/steps', [REMNANT]: '/make/remnant/steps' };
const NOTHING = { wanted: [], leftOut: [], ways: {}, stages: 2, tool: 'rotary cutter', layout: null, made: 0, good: {}, kept: null, after: [] };

/** The cutting as it was left: {wanted: [{size, cloth, quantity}], leftOut (ids of remnants not to be cut),
    ways ({cloth: how it is cut}), stages (3 where low strips may be stacked), tool, layout (null until one is found), made (cuts made so far),
    good (strips that came out otherwise than laid, by key), kept (offcuts to keep, by key)}. `of` says which: the plan
    of Buy and Make, or a remnant that is cut by itself. */
export const cutting = (of = PLAN) => ({ ...NOTHING, ...recall(of) });
export const keepCutting = (plan, of = PLAN) => remember(of, plan);

/** The screen that was left for the checklist: a batch, or cuts; null where there is none. */
export function workToGoOn() {
  const left = recall('cuts-left', PLAN);
  if (left.startsWith('/')) return left;
  const of = [left, PLAN].find((one) => cutting(one).layout);
  return of ? CUTS[of] : null;
}

/** Say which cuts are left for the checklist, or the address of which batch. */
export const leaveWork = (of) => remember('cuts-left', of);

/** What is to be cut with other pieces of one size in one cloth; the layout, once there, no longer fits. */
export function withWanted(plan, { size, cloth }, quantity) {
  const same = (line) => line.size === size && line.cloth === cloth;
  const others = plan.wanted.filter((line) => !same(line) || quantity > 0);
  const wanted = others.some(same)
    ? others.map((line) => (same(line) ? { ...line, quantity } : line))
    : [...others, ...(quantity > 0 ? [{ size, cloth, quantity }] : [])];
  return changed(plan, { wanted });
}

/** A plan in which something is chosen otherwise: it has to be laid out anew. */
export const changed = (plan, chosen) => ({ ...plan, ...chosen, layout: null, made: 0, good: {}, kept: null, after: [] });

/** What is still to be said of a cloth before a bolt of it can be planned: labels of fields. */
export function unmeasured(cloth) {
  const fields = new Set(kindNamed('cloth').fields.map(({ name }) => name));
  const needed = calculatorNamed('fabric-per-dozen').inputs.filter((field) => field.required && fields.has(field.name));
  return needed.filter(({ name }) => (cloth[name] ?? null) === null).map(({ label }) => label);
}

/** Cloths that can be planned. */
export const measuredCloths = () => records('cloth').filter((cloth) => !unmeasured(cloth).length);

// lines of before they had links say it by name
const linked = (kind, id, name) => records(kind).find((record) => (id ? record.id === id : record.name === name))?.id;

/** The saved cloth that a line of the shopping list is about; undefined for none. */
export const clothOfLine = (line) => linked('cloth', line.cloth, line.name);

/** What a line of the shopping list is to be cut into, where it is about a size and a cloth known here: {size, cloth, quantity}. */
export function wantedOf(line) {
  const wanted = { size: linked('piece', line.size, line.for_what), cloth: clothOfLine(line), quantity: line.quantity };
  return wanted.size && wanted.cloth && wanted.quantity && !unmeasured(recordById('cloth', wanted.cloth)).length ? wanted : null;
}

/** Those lines of the shopping list: [{size, cloth, quantity}]. */
export const wantedOnList = () => records('list-line').map(wantedOf).filter(Boolean);

/** Remnants of the cloths that are wanted. */
export function remnantsFor({ wanted }) {
  const cloths = new Set(wanted.map((line) => line.cloth));
  return records('remnant').filter((remnant) => cloths.has(remnant.cloth));
}

/** What the core plans of it: {given, cloths, strips, rolls, estimated, left_out} as `planned` tells; null for
    nothing wanted. */
export async function planned(plan) {
  if (!plan.wanted.length) return null;
  const { wanted, ways, leftOut, stages } = plan;
  const byId = (kind, ids) => Object.fromEntries(ids.map((id) => [id, recordById(kind, id)]));
  const made = await ask('planned', {
    wanted,
    ways,
    unit: firstUnit({ unit: 'mm' }),
    sizes: byId(
      'piece',
      wanted.map((line) => line.size),
    ),
    cloths: byId(
      'cloth',
      wanted.map((line) => line.cloth),
    ),
    remnants: byId(
      'remnant',
      remnantsFor(plan)
        .map(({ id }) => id)
        .filter((id) => !leftOut.includes(id)),
    ),
    elastics: byId(
      'elastic',
      records('elastic').map(({ id }) => id),
    ),
  });
  return { ...made, given: { ...made.given, stages } };
}

/** Look for a layout a little at a time, until it is proven, the steps are used up or `stopped()` says so.
    `show` is told each state of it; a better one is kept with the plan at once, unless the plan is no
    longer this one. Throws where the core refuses. */
export async function layOut(plan, show, stopped) {
  const made = await planned(plan);
  let best = null;
  // what is cut now was bought with its spare pieces
  await search(
    'buy-list',
    { ...made.given, spare_percent: 0 },
    (told) => {
      const layout = { ...made, result: told.result, done: told.done };
      const { bolt_length: length, cost, gap, gap_to_buy: gapToBuy, unplaced } = told.result;
      const found = JSON.stringify([length, cost, gap, gapToBuy, unplaced, told.done]);
      if (found !== best) keepCutting({ ...plan, layout });
      best = found;
      show(layout);
    },
    () => stopped() || !isAtHand(plan),
  );
}

function isAtHand({ wanted, ways, leftOut, stages }) {
  const now = cutting();
  return now.wanted === wanted && now.ways === ways && now.leftOut === leftOut && now.stages === stages;
}

/** The laid cloths that have rows, each with the records behind it: [{source, given, laid}]. */
export function laidCloths({ cloths, given, result }) {
  return result.cloths.map((laid) => ({ laid, source: cloths[laid.cloth], given: given.cloths[laid.cloth] })).filter(({ laid }) => laid.rows.length);
}

/** All cuts in their order: [{cloth (of laidCloths), cut}]. */
export function cutsOf(layout) {
  return laidCloths(layout).flatMap((cloth) => cloth.laid.cuts.map((cut) => ({ cloth, cut })));
}

/** What comes next once a layout is there. */
export function nextInWords({ layout, made }) {
  const count = cutsOf(layout).length;
  if (!made) return `Cut it: ${countInWords(count, 'cut')}`;
  return made < count ? `Go on with cut ${made + 1} of ${count}` : 'Record what was cut';
}

/** The tool that a cloth is cut with. */
export const toolFor = ({ tool }, { given }) => (given.tear ? 'tearing' : tool);

/** Tools to choose from; what is torn, is torn whatever is chosen. */
export const tools = () => declared().cutting_tools.filter((tool) => tool !== 'tearing');

/** What is said beside the cuts made with a tool: {before_phone (null where nothing held cuts), musts, caution}, and asked
    after the last: after, [{id, text}]. */
export const cautionsFor = (tool) => askOnce(`cautions:${tool}`, 'at_the_table', { tool });

/** Whether somebody, else who cuts with this phone, signed today's checklist for a tool. */
export async function isSigned(tool, person = recall('person')) {
  return (await factsOf('checklist-signature')).some((fact) => fact.tool === tool && fact.day === today() && fact.person === person);
}

/** What the checklists of the tools that were used ask once all is cut: [{id, text}]. */
export async function askedAfter(plan) {
  const used = [...new Set(laidCloths(plan.layout).map((cloth) => toolFor(plan, cloth)))];
  return (await Promise.all(used.map(cautionsFor))).flatMap(({ after }) => after);
}

/** Offcuts large enough for a strip: [{key, laid (the number of its cloth), cloth (its id), name, width, length}]. */
export function offcutsOf(layout) {
  return laidCloths(layout).flatMap(({ laid, source }) =>
    laid.offcuts.map(({ width, length }, index) => ({
      key: `${laid.cloth}/${index}`,
      laid: laid.cloth,
      cloth: source.cloth,
      name: nameOf('cloth', recordById('cloth', source.cloth)),
      width,
      length,
    })),
  );
}

/** The keys of the offcuts that are kept: those a strip fits on, unless it is chosen otherwise. */
export const offcutsKept = ({ layout, kept }) => kept ?? offcutsOf(layout).map(({ key }) => key);

/** Strips that lie on a laid cloth, by size: [{strip (its number), name, length, width, quantity}]. */
export function piecesOn(laid) {
  const pieces = new Map();
  for (const { strip, name, length, width } of laid.rows.flatMap((row) => row.strips)) {
    pieces.set(strip, { strip, name, length, width, quantity: (pieces.get(strip)?.quantity ?? 0) + 1 });
  }
  return [...pieces.values()];
}

/** The height of each row of a laid cloth in words, as the ruler shows it. */
export const heightsInWords = (laid) =>
  lengthsInWords(
    laid.rows.map((row) => row.height),
    'mm',
  );

/** Strips that came out of each cloth: [{key, size, from (what the cloth is called), quantity}]. */
export function stripsOf(plan) {
  return laidCloths(plan.layout).flatMap(({ laid }) => linesOf(plan, laid).map((line) => ({ ...line, from: laid.name })));
}

// as laid, but for what came out otherwise
function linesOf({ layout: { strips }, good }, laid) {
  return piecesOn(laid).map(({ strip, quantity }) => {
    const key = `${laid.cloth}/${strip}`;
    return { key, size: strips[strip].size, quantity: good[key] ?? quantity };
  });
}

/** Keep what was cut, put away the remnants it came from, and describe the offcuts that are kept; all or none.
    Resolves to the cuts, as they can be taken back. */
export async function recordCut(plan, of = PLAN) {
  const { layout } = plan;
  const kept = offcutsKept(plan);
  const offcuts = offcutsOf(layout)
    .filter(({ key }) => kept.includes(key))
    .map((offcut) => ({ ...offcut, id: newId() }));
  const cloths = laidCloths(layout).map((cloth) => ({ ...cloth, lines: cutLines(plan, cloth.laid) }));
  const cuts = cloths
    .filter(({ lines }) => lines.length)
    .map(({ laid, source, lines }) => ({
      id: newId(),
      cloth: source.cloth,
      remnant: source.remnant,
      length: laid.used_length,
      lines,
      offcuts: offcuts.filter((offcut) => offcut.laid === laid.cloth).map(({ id }) => id),
    }));
  await keepTogether({
    facts: cuts.map(({ id, ...cut }) => ['cut', { day: today(), ...cut }, id]),
    described: offcuts.map(({ id, name, cloth, width, length }) => ['remnant', { name: nameWithDay(name, today()), cloth, width, length }, id]),
    edited: cloths.filter(({ source }) => source.remnant).map(({ source }) => ['remnant', source.remnant, { archived: true }]),
  });
  await keepCutting(null, of);
  await layOutAnewWithout(cuts.map(({ remnant }) => remnant));
  return cuts;
}

// what is laid out on a remnant that is gone, and not begun
async function layOutAnewWithout(gone) {
  for (const of of Object.keys(CUTS)) {
    const plan = cutting(of);
    if (!plan.made && plan.layout?.cloths.some(({ remnant }) => remnant && gone.includes(remnant))) await keepCutting(changed(plan, {}), of);
  }
}

function cutLines(plan, laid) {
  return linesOf(plan, laid)
    .filter(({ quantity }) => quantity > 0)
    .map(({ size, quantity }) => ({ size, quantity }));
}

/** Take cuts back that were just recorded, all that came of them with them; the plan is there again, unless
    another is begun. */
export async function undoCut(plan, cuts, of = PLAN) {
  await voidCuts(cuts.map(({ id }) => id));
  const { wanted, layout } = cutting(of);
  if (!wanted.length && !layout) await keepCutting(plan, of);
}
