/* Numbers being tapped in a count: each is kept as one line when the taps on it pause. What an app that
   was killed had not kept yet is remembered, and offered again. */
import { keepLine } from './counts.js';
import { recall, remember } from './store/remembered.js';

const PAUSE_MS = 700;
const listeners = new Set();
const timers = new Map();
const keeping = new WeakMap();
// by session, box and thing: {count, box, thing, quantity, left: from before the app was closed, fact: its id once it is kept}
let typed = null;

function all() {
  typed ??= new Map(recall('typed-lines', []).map(([name, line]) => [name, { ...line, left: true }]));
  return typed;
}

/** What is being tapped in a count, and what was left of it: [line]. */
export function typedIn({ session }) {
  return [...all().values()].filter((line) => line.count.session === session && !line.fact);
}

/** What is being tapped for a thing in a box, and what was kept of it until it is told: the next tap goes on from there.
    Undefined for nothing. */
export const typedFor = (count, box, thing) => all().get(nameOf(count, box, thing));

/** Forget what was kept and is told by now, by the ids of the `facts` told of. */
export function forgetTold(facts) {
  [...all()].filter(([, { fact }]) => facts.has(fact)).forEach(([name]) => all().delete(name));
}

/** Take a number in; it is kept as a line once no further tap comes. */
export function typeLine(count, box, thing, quantity) {
  const name = nameOf(count, box, thing);
  all().set(name, { count, box, thing, quantity, left: false });
  clearTimeout(timers.get(name));
  timers.set(
    name,
    setTimeout(() => keep(name), PAUSE_MS),
  );
  changed();
}

/** Keep what is being typed in a count, at once; resolves when it is on the disk. */
export const keepTyped = (count) => keepThose(count, false);

/** Keep what was left of a count, if it is still so. */
export const keepLeft = (count) => keepThose(count, true);

function keepThose(count, left) {
  const those = typedIn(count).filter((line) => line.left === left);
  return Promise.all(those.map((line) => keep(nameOf(line.count, line.box, line.thing))));
}

/** Forget what was left of a count. */
export function dropLeft(count) {
  typedIn(count)
    .filter((line) => line.left)
    .forEach((line) => all().delete(nameOf(line.count, line.box, line.thing)));
  changed();
}

/** Be told after each number that is typed or kept; returns the way to stop. */
export function onTyped(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function keep(name) {
  clearTimeout(timers.get(name));
  const line = all().get(name);
  if (!line || line.fact) return undefined;
  // who follows what is kept may ask for it again
  if (!keeping.has(line)) keeping.set(line, kept(name, line));
  return keeping.get(line);
}

async function kept(name, line) {
  try {
    const fact = await keepLine(line.count, line.box, line.thing, line.quantity);
    // a tap may have come meanwhile: that one is kept next
    if (all().get(name) === line) all().set(name, { ...line, left: false, fact });
  } catch (error) {
    keeping.delete(line);
    if (all().get(name) === line) all().set(name, { ...line, left: true });
    throw error;
  } finally {
    changed();
  }
}

function changed() {
  remember(
    'typed-lines',
    [...all()].filter(([, line]) => !line.fact),
  );
  listeners.forEach((listener) => listener());
}

const nameOf = ({ session }, box, { key }) => `${session} ${key} ${box}`;

// an app in the background may be ended without a word
document.addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'hidden') [...all()].filter(([, line]) => !line.left).forEach(([name]) => keep(name));
});
