/* Facts, pulled and own together, each once; what was rejected is under "to check" instead. */
import { call } from '../core/core-client.js';
import { kindsVoiding } from './asking.js';
import { factsIn } from './readable.js';
import { ownFacts, voids, withOwnFacts } from './stock.js';
import { subscribe } from './store/following.js';
import { loggedByIds, loggedDays, loggedOfDays, loggedOfKind, nextLoggedDay } from './store/log.js';

// pulled facts of the days that were asked for, until the next page of the log
const days = new Map();
subscribe((made) => {
  if (made === null) days.clear();
});

/** Facts of a kind, the latest first. */
export async function factsOf(kind) {
  return (await together(loggedOfKind(kind).then(factsIn), (fact) => fact.kind === kind)).reverse();
}

/** Facts of a kind, the latest first, each with whether another says that it never happened: [{…fact, never}]. `of` reads
    the facts of a kind. */
export async function factsWithVoids(name, of = factsOf) {
  const voiding = kindsVoiding(name);
  const [leftOut, facts, ...voided] = await Promise.all([voids(), of(name), ...voiding.map((kind) => of(kind.name))]);
  const voiders = voided.flatMap((made, index) => made.filter(({ id }) => !leftOut[id]).map((fact) => fact[voiding[index].voids]));
  const never = new Set(voiders);
  return facts.map((fact) => ({ ...fact, never: never.has(fact.id) || fact.id in leftOut }));
}

/** Facts of a local day, in the order of their times. */
export const factsOfDay = (day) => factsOfDays([day]);

/** Facts of some local days, in the order of their times: of the log no chunk is read twice for them. */
export async function factsOfDays(wanted) {
  const missing = wanted.filter((day) => !days.has(day));
  if (missing.length) {
    const reading = loggedOfDays(missing).then(factsIn).then(byDay);
    for (const day of missing)
      days.set(
        day,
        reading.then((found) => found.get(day) ?? []),
      );
  }
  const known = Promise.all(wanted.map((day) => days.get(day))).then((each) => each.flat());
  const all = new Set(wanted);
  return together(known, ({ day }) => all.has(day));
}

function byDay(facts) {
  const found = new Map();
  for (const fact of facts) {
    if (!found.has(fact.day)) found.set(fact.day, []);
    found.get(fact.day).push(fact);
  }
  return found;
}

// of years of days hardly ever more than the latest are asked for
const DAYS_AT_ONCE = 40;

/** Local days with facts up to one, the latest first, each with its facts: [day, facts], read as they are asked for. */
export async function* daysOfFacts(latest) {
  const own = [...new Set(ownFacts().map((fact) => fact.day))].filter((day) => day <= latest);
  for (let before = null, ended = false; !ended; ) {
    const logged = await loggedDays(DAYS_AT_ONCE, latest, before);
    ended = logged.length < DAYS_AT_ONCE;
    const from = ended ? '' : logged.at(-1);
    const some = [...new Set([...logged, ...own.filter((day) => day >= from && (before === null || day < before))])];
    const found = byDay(await factsOfDays(some));
    yield* some
      .sort()
      .reverse()
      .map((day) => [day, found.get(day) ?? []]);
    before = from;
  }
}

/** The first local day with facts after one; null where there is none. */
export async function nextDayOfFacts(after) {
  const own = ownFacts().map((fact) => fact.day);
  const days = [...own, await nextLoggedDay(after)].filter((day) => day > after);
  return days.sort()[0] ?? null;
}

/** One fact by its id; undefined if it is not here. */
export async function factById(id) {
  return ownFacts().find((fact) => fact.id === id) ?? (await factsIn(await loggedByIds([id])))[0];
}

/** Money taken and given back, of facts: {sales, pieces, taken, refunds, given_back, amount, payments}. */
export async function takingsOf(facts) {
  return (await call('takings', { facts, voids: await voids() })).answer;
}

async function together(reading, wanted) {
  return (await withOwnFacts(reading, wanted)).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
}
