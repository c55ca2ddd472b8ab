/* Parts of the log that are asked for again and again, each kept apart from it up to a number of it: to look for them there
   takes all of it into the hand every time. */
import { endOfLog } from './kept-answers.js';
import { keepTotals, total } from './store/pulled.js';

const version = document.documentElement.dataset.version;

/** A way to read a part of the log, in its order, as it stands: () → rows. `fresh(through, cursor)` resolves to the rows
    between two numbers of the log; `slot`, where those before are kept. */
export function partOfLog(slot, fresh) {
  // one reading at a time for those who ask at once; never one that ends before the log does by now
  let reading = null;
  return () => {
    const stood = endOfLog();
    const mark = `${stood.epoch} ${stood.cursor}`;
    if (reading?.mark !== mark) reading = { mark, rows: readOn(slot, fresh, stood) };
    const mine = reading;
    mine.rows.catch(() => {
      if (reading === mine) reading = null;
    });
    return mine.rows;
  };
}

async function readOn(slot, fresh, stood) {
  const { cursor = 0 } = stood;
  const { rows, through } = kept(slot, cursor);
  if (cursor === through) return rows;
  const came = await fresh(through, cursor);
  // what is but a name, such as a day, may have come before
  const all = came.length ? [...new Set([...rows, ...came])] : rows;
  await keepTotals(stood, { [slot]: { held: { version, text: JSON.stringify(all) }, through: cursor } });
  return all;
}

// a text, which a start reads sooner than objects
function kept(slot, cursor) {
  const { held, through = 0 } = total(slot) ?? {};
  if (held?.version !== version || through > cursor) return { rows: [], through: 0 };
  return { rows: JSON.parse(held.text), through };
}
