/* What Make opens on: the batches that are sewn, the strips that wait, and what the sewing plans still want. */
import { CoreFailed } from '../core/core-client.js';
import { freeStrips, openBatches, orderOfBatches, standingOf } from './batches.js';
import { today } from './clock.js';
import { keptOf } from './kept-answers.js';
import { lapNow } from './laps.js';
import { stillToSew } from './sewing-plans.js';
import { chosenThreads } from './threads.js';

/** {open: [{batch, standing}], the one with a lap that runs first, order: as `orderOfBatches`, waiting: as `freeStrips`, plans: as
    `stillToSew`, refused: [words] of what cannot be told}. As it was told last where nothing changed since: a start need not
    wait for the core. */
export const atTheBench = () => keptOf('make', [today(), chosenThreads(), lapNow()?.batch], gather, async (told) => told);

async function gather() {
  const running = lapNow()?.batch;
  const batches = openBatches().sort((a, b) => (b.id === running) - (a.id === running));
  const refused = [];
  // what cannot be told of one is told as such, and shuts nothing else
  const orElse = (otherwise, asking) =>
    asking.catch((error) => {
      if (error instanceof CoreFailed) throw error;
      refused.push(error.message);
      return otherwise;
    });
  const standing = async (batch) => ({ batch, standing: await standingOf(batch) });
  const [open, order, waiting, plans] = await Promise.all([
    Promise.all(batches.map((batch) => orElse({ batch, standing: null }, standing(batch)))),
    orElse(null, orderOfBatches()),
    orElse([], freeStrips()),
    orElse({ plans: [], wanted: [] }, stillToSew()),
  ]);
  return { open, order, waiting, plans, refused };
}
