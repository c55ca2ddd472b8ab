/* The lap that runs on this phone. Its start and its pauses are on the disk at once, so it goes on through a locked phone,
   a kill and a reload. It is timed by two clocks: the wall's, which runs on while the phone sleeps and may be set
   otherwise, and the page's, which never goes back. */
import { state, stateAll } from './actions.js';
import { fieldOf } from './asking.js';
import { today } from './clock.js';
import { recall, remember } from './store/remembered.js';

// what two clocks may be apart without one of them having been set
const APART_MS = 2000;

// whether nobody saw the page since the clocks were last compared: the phone may have slept
let unseen = true;
document.addEventListener('visibilitychange', () => {
  unseen = true;
});

/** The running lap: {batch, step, person, pieces, disturbed, counted (ms so far), since (null while paused)}; null for none. */
export const lapNow = () => recall('lap');
const keepLap = (lap) => remember('lap', lap);

const longestMs = () => fieldOf('batch-step', 'laps', 'took_ms').highest;
const clocks = () => ({ wall: Date.now(), page: performance.now(), origin: performance.timeOrigin });

/** How long a lap has taken, ms, and whether a clock was set meanwhile so that nobody can know. */
export function elapsed({ counted, since }, here = clocks(), slept = unseen) {
  if (!since) return { ms: counted, unsure: false };
  const wall = here.wall - since.wall;
  if (here.origin !== since.origin) return { ms: counted + Math.max(wall, 0), unsure: wall < 0 || wall > longestMs() };
  const page = here.page - since.page;
  // a page in sight does not sleep: a wall clock ahead of it was set; one behind it was set, too
  const set = wall < page - APART_MS || (!slept && wall > page + APART_MS);
  return { ms: counted + Math.max(set ? page : wall, 0), unsure: false };
}

/** Compare the clocks, a second at a time while a lap is in sight; what was counted by then stays. Tells the time, ms. */
export function tick() {
  const lap = lapNow();
  if (!lap) return 0;
  const { ms, unsure } = elapsed(lap);
  if (!document.hidden) unseen = false;
  if (lap.since) {
    const here = clocks();
    const apart = Math.abs(here.wall - lap.since.wall - (here.page - lap.since.page)) > APART_MS || here.origin !== lap.since.origin;
    // on the disk where a clock was set, or the phone slept: what is counted is not asked again
    if (apart) keepLap({ ...lap, counted: ms, since: here, disturbed: lap.disturbed || unsure });
  }
  return ms;
}

/** Begin a lap: {batch, step, person, pieces}. */
export const beginLap = (what) => keepLap(freshLap(what));

const freshLap = ({ batch, step, person, pieces }) => ({ batch, step, person, pieces, disturbed: false, counted: 0, since: clocks() });

export const pauseLap = (lap) => keepLap({ ...lap, counted: elapsed(lap).ms, since: null });
export const resumeLap = (lap) => keepLap({ ...lap, since: clocks() });
export const changeLap = (lap, more) => keepLap({ ...lap, ...more });
export const dropLap = () => keepLap(null);

/** End a lap: it is recorded, and the next one of as many `pieces` runs from the same moment; 0 for none. */
export function endLap(lap, pieces) {
  const { ms, unsure } = elapsed(lap);
  const took = Math.min(Math.max(Math.round(ms), 1), longestMs());
  const disturbed = lap.disturbed || unsure || ms > longestMs();
  const { batch, step, person } = lap;
  const fields = { day: today(), batch, step, person, laps: [{ pieces: lap.pieces, took_ms: took, disturbed }] };
  return state('batch-step', fields, { lap: pieces ? freshLap({ ...lap, pieces }) : null });
}

/** Undo a lap: what it took goes on, paused where nothing runs. `lap` as `batch_standing` lists it. */
export function undoLap(batch, { id, step, person, pieces, took_ms, disturbed }) {
  const running = lapNow();
  if (running && (running.batch !== batch || running.step !== step)) return voidLap(id);
  const more = running ?? { since: null, counted: 0, disturbed: false };
  return voidLap(id, { lap: { ...more, batch, step, person, pieces, disturbed: disturbed || more.disturbed, counted: more.counted + took_ms } });
}

const voidLap = (id, also) => state('batch-step-void', { day: today(), batch_step: id, reason: 'undone' }, also);

/** Say of a lap that it was disturbed, or was not: it is void, and recorded anew. */
export function markLap(batch, { id, step, person, pieces, took_ms }, disturbed) {
  const day = today();
  return stateAll([
    ['batch-step-void', { day, batch_step: id, reason: disturbed ? 'disturbed' : 'not disturbed' }],
    ['batch-step', { day, batch, step, person, laps: [{ pieces, took_ms, disturbed }] }],
  ]);
}

/** Pieces of a tray, as on this phone. */
export const trayNow = () => recall('tray', 12);
export const keepTray = (pieces) => remember('tray', pieces);

/** Minutes and seconds, as on a clock: 3:24. */
export function clockInWords(ms) {
  const seconds = Math.floor(ms / 1000);
  const two = (value) => String(value).padStart(2, '0');
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return `${hours ? `${hours}:${two(minutes)}` : minutes}:${two(seconds % 60)}`;
}
