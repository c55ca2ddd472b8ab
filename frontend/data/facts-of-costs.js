/* The facts that costs and results are made of, kept apart from the log up to a number of it: to look for each kind in
   the log takes all of it into the hand again and again. Owners' phones alone ask for them. */
import { declared } from './asking.js';
import { factsBetween } from './changed-days.js';
import { endOfLog } from './kept-answers.js';
import { withOwnFacts } from './stock.js';
import { keepTotals, total } from './store.js';

const SLOT = 'facts-of-costs';
const version = document.documentElement.dataset.version;

/** Those of some of these kinds, the latest first, pulled and own together, each once. */
async function factsOfCosts(kinds) {
  const other = kinds.find((kind) => !read().has(kind));
  if (other) throw new Error(`${other} is not among the facts of costs`);
  const all = await upToDate();
  return all.filter(({ kind }) => kinds.includes(kind));
}

/** Those that the core reads to work something out, as it declares by `name`. */
export const factsReadBy = (name) => factsOfCosts(declared().facts_read[name]);

/** Those of one of these kinds, as `factsOf` tells them. */
export const factsOfCost = (kind) => factsOfCosts([kind]);

async function upToDate() {
  return (await withOwnFacts(logged(), isOfCosts)).sort((a, b) => b.at - a.at || (a.id < b.id ? 1 : -1));
}

// one reading at a time for those who ask at once; never one that ends before the log does by now
let reading = null;
function logged() {
  const stood = endOfLog();
  const mark = `${stood.epoch} ${stood.cursor}`;
  if (reading?.mark !== mark) reading = { mark, facts: readOn(stood) };
  const mine = reading;
  mine.facts.catch(() => {
    if (reading === mine) reading = null;
  });
  return mine.facts;
}

async function readOn(stood) {
  const { cursor = 0 } = stood;
  const { facts, through } = kept(cursor);
  const fresh = (await factsBetween(through, cursor)).filter(isOfCosts);
  const pulled = fresh.length ? [...facts, ...fresh] : facts;
  if (cursor !== through) await keepTotals(stood, { [SLOT]: { held: { version, text: JSON.stringify(pulled) }, through: cursor } });
  return pulled;
}

// all that any of what works them out reads
let known = null;
function read() {
  known ??= new Set(Object.values(declared().facts_read).flat());
  return known;
}

const isOfCosts = ({ kind }) => read().has(kind);

// a text, which a start reads sooner than objects
function kept(cursor) {
  const { held, through = 0 } = total(SLOT) ?? {};
  if (held?.version !== version || through > cursor) return { facts: [], through: 0 };
  return { facts: JSON.parse(held.text), through };
}
