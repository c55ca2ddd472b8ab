/* The invented year: made on this phone by the core, kept in a store of its own, and left again. */
import { ask, rememberedDeclared } from './asking.js';
import { newId, today } from './clock.js';
import { stockOfOwn } from './stock.js';
import { keepInvented } from './store/invented-year.js';
import { isFact } from './store/is-fact.js';

// what a slice makes takes a mid-range phone some tenths of a second
const DAYS_AT_ONCE = 3;

/** Make the year up to a market today and have the next page show it. `show` is told from time to time how much
    is done, 0 to 1; `stopped` says whether nobody wants it any more. Resolves to whether it is there. */
export async function makeYear(show, stopped) {
  const fixtures = await fetch('/fixtures.json')
    .then((reply) => reply.json())
    .catch((error) => {
      throw new Error('What the year is made of is not on this phone yet, and the server cannot be reached', { cause: error });
    });
  // the year's counts are named as this phone would name them
  const business = newId();
  const asked = { fixtures, business, day: today(), offset_minutes: -new Date().getTimezoneOffset() };
  const all = (await ask('begin_year', asked)).left;
  const changes = [];
  for (let left = all; left > 0; ) {
    const told = await ask('live_days', { most: DAYS_AT_ONCE });
    changes.push(...told.changes);
    left = told.left;
    // the stock that comes of it is the rest
    show((all - left) / all - 0.1);
    if (stopped()) return false;
  }
  const facts = changes.filter(isFact).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
  const stock = await stockOfOwn(facts);
  if (stopped()) return false;
  await keepInvented(changes, { device: business, 'own-stock': stock, ...rememberedDeclared() });
  return true;
}
