/* Which days have other facts than when something was last made of them. */
import { kindNamed } from './calculating.js';
import { endOfLog } from './kept-answers.js';
import { factsIn } from './readable.js';
import { ownFacts } from './stock.js';
import { loggedAfter, loggedByIds } from './store/log.js';

/** Pulled facts that came after a number of the log, up to another. */
export async function factsBetween(through, cursor) {
  return cursor > through ? factsIn((await loggedAfter(through)).filter(({ seq }) => seq <= cursor)) : [];
}

/** Days of which facts that `isOf` says came, changed or were undone since `before`, {through, own}, as told then as `now`;
    nothing came at all where `same`. Resolves to {days: Set, now, same}. */
export async function daysChanged({ through, own: marked }, isOf) {
  const { cursor = 0 } = endOfLog();
  const own = ownFacts();
  const fresh = await factsBetween(through, cursor);
  const marks = marksOf(own, isOf);
  const undone = [...fresh, ...(marked.voids === marks.voids ? [] : own)].map(targetOf).filter(Boolean);
  const days = [...fresh.filter(isOf).map(({ day }) => day), ...otherDays(marked, marks), ...(await daysOf(undone, [...own, ...fresh]))];
  return { days: new Set(days.filter(Boolean)), now: { through: cursor, own: marks }, same: !days.length && through === cursor };
}

const targetOf = (fact) => fact[kindNamed(fact.kind)?.voids];

// what tells whether own facts of a day are others than before: how many, and the last of them
function marksOf(own, isOf) {
  const days = new Map();
  for (const { day, id } of own.filter(isOf)) days.set(day, { count: (days.get(day)?.count ?? 0) + 1, id });
  const marks = Object.fromEntries([...days].map(([day, { count, id }]) => [day, `${count} ${id}`]));
  const undoing = own.filter(targetOf);
  return { ...marks, voids: `${undoing.length} ${undoing.at(-1)?.id}` };
}

function otherDays(before, now) {
  const days = new Set([...Object.keys(before), ...Object.keys(now)]);
  days.delete('voids');
  return [...days].filter((day) => before[day] !== now[day]);
}

async function daysOf(ids, known) {
  const here = new Map(known.map((fact) => [fact.id, fact.day]));
  const missing = ids.filter((id) => !here.has(id));
  const logged = missing.length ? await factsIn(await loggedByIds(missing)) : [];
  return [...ids.map((id) => here.get(id)), ...logged.map(({ day }) => day)];
}
