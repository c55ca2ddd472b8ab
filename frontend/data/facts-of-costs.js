/* The facts that costs and results are made of. Owners' phones alone ask for them. */
import { declared } from './asking.js';
import { factsBetween } from './changed-days.js';
import { partOfLog } from './part-of-log.js';
import { withOwnFacts } from './stock.js';

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

// all that any of what works them out reads
let known = null;
function read() {
  known ??= new Set(Object.values(declared().facts_read).flat());
  return known;
}

const isOfCosts = ({ kind }) => read().has(kind);

const logged = partOfLog('facts-of-costs', async (through, cursor) => (await factsBetween(through, cursor)).filter(isOfCosts));
