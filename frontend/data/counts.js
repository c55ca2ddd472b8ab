/* Counts: which one is open on this phone, what has been seen in it on every phone, and how it comes out. */
import { state } from './actions.js';
import { ask } from './asking.js';
import { declared } from './calculating.js';
import { deviceId, now, today } from './clock.js';
import { factsOfDay } from './facts.js';
import { nameOf } from './naming.js';
import { recordById, records } from './records.js';
import { factsIn } from './readable.js';
import { namedId } from './named-ids.js';
import { neededFacts, withOwnFacts } from './stock.js';
import { loggedOfDays } from './store/log.js';
import { ownChanges } from './store/own-changes.js';
import { recall, remember } from './store/remembered.js';

/** The counts of a day that have a name, in their order; further ones are numbered. */
export const turns = () => declared().counts;

/** What a count is called on the screens. */
export function turnInWords(which) {
  return turns().includes(which) ? `${which[0].toUpperCase()}${which.slice(1)} count` : `Further count ${which}`;
}

/** The count open on this phone: {place, day, which, session, box, only}; null for none. `only`: the
    keys of what is counted again, null for all. */
export const openCount = () => recall('count');
export const keepCount = (count) => remember('count', count);

/** The place counted last; null for none. */
export const lastPlace = () => recall('count-place');

/** Boxes that were used at a place. */
export const boxesAt = (place) => recall('boxes', {})[place] ?? [];
export const rememberBoxes = (place, boxes) => remember('boxes', { ...recall('boxes', {}), [place]: boxes });

/** Begin a count of today, or join the one that another phone began. */
export async function beginCount(place, which, day = today()) {
  const count = { place, day, which, session: await sessionOf(place, day, which), box: '', only: null };
  remember('count-place', place);
  await keepCount(count);
  return count;
}

/** Counts of a place on a day: the three with a name, the further ones that are known, and one more:
    [{which, lines, close}], close being the id of the fact or undefined. */
export async function countsOfDay(place, day = today()) {
  const facts = (await factsOfDay(day)).filter((fact) => fact.place === place && fact.session);
  const counts = [];
  for (const which of [...turns(), ...Array.from({ length: facts.length + 1 }, (_, index) => String(index + 1))]) {
    const session = await sessionOf(place, day, which);
    const ours = facts.filter((fact) => fact.session === session);
    const lines = ours.filter((fact) => fact.kind === 'count-line').length;
    counts.push({ which, session, lines, close: ours.find((fact) => fact.kind === 'count-close')?.id });
    if (!ours.length && !turns().includes(which)) break;
  }
  return counts;
}

/** Which of the day's counts a session is. */
export async function turnOf({ place, day, session }) {
  return (await countsOfDay(place, day)).find((count) => count.session === session)?.which;
}

const sessionOf = async (place, day, which) => namedId(await ask('count_name', { place, day, which }));

/** What stands of a count: {lines: [{fact, phone, box_label, product, size, quantity}], pieces, phones, closed_at, late, differing},
    and the ids of the `facts` that tell it. */
export async function soFar({ place, day, session }) {
  const before = ownChanges();
  const reading = loggedOfDays([day]);
  const ours = (await withOwnFacts(reading.then(factsIn))).filter((fact) => fact.session === session);
  // a stamp ends with the phone it was made on
  const phones = new Map([...(await reading), ...before, ...ownChanges()].map(({ id, stamp }) => [id, stamp.slice(19)]));
  const facts = ours.map((fact) => ({ ...fact, phone: phones.get(fact.id) }));
  return { ...(await ask('count_so_far', { facts, session, place })), facts: new Set(facts.map(({ id }) => id)) };
}

/** What a phone is called here. */
export function phoneInWords(id) {
  if (id === deviceId()) return 'this phone';
  const told = recall('phones')?.find((phone) => phone.id === id)?.name;
  return nameOf('device-name', recordById('device-name', id)) || told || 'another phone';
}

/** Keep what was seen of a product, or of a size alone, in a box. */
export function keepLine({ place, day, session }, box_label, { product = null, size = null }, quantity) {
  return state('count-line', { day, session, place, box_label, product, size, quantity });
}

/** How a count agrees with the books: {rows, listed, accuracy, missing, extra, missing_value, extra_value}.
    `close`: what its close is going to say, {} for one that is closed; `about`: when it was. */
export async function resultOf({ place, session }, close = {}, about = now()) {
  const facts = await neededFacts(place, about, session);
  const products = Object.fromEntries(records('product').map(({ id, size, price }) => [id, { size, price }]));
  return ask('count_result', { facts, session, place, close, products });
}

/** What was said so far about closing a count: {scope, answers, reasons, again}, the latter three by key. */
export function closing({ session }) {
  const said = recall('closing');
  return said?.session === session ? said : { session, scope: 'all', answers: {}, reasons: {}, again: {} };
}

export const keepClosing = (said) => remember('closing', said);

/** Close a count; resolves to the id of the fact. */
export async function closeCount({ place, day, session }, close) {
  const id = await state('count-close', { day, session, place, ...close });
  await keepCount(null);
  return id;
}
