/* What bookings, markets and years came to, worked out by the core; for owners. What was taken is summed up day by
   day and kept up to a number of the log: what came later is added. */
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { daysChanged } from './changed-days.js';
import { today } from './clock.js';
import { isOfTakings } from './days-with-takings.js';
import { factsOf, factsOfDays } from './facts.js';
import { currency } from './preferences.js';
import { factsReadBy } from './facts-of-costs.js';
import { askKept, endOfLog, keptOf } from './kept-answers.js';
import { recordById, recordsOf } from './records.js';
import { stock, stockAt, voids } from './stock.js';
import { keepTotals, total } from './store/pulled.js';

const KINDS_OF_GOODS = ['piece', 'cloth', 'remnant', 'elastic', 'thread', 'supply', 'product', 'batch'];
const KINDS_OF_MARKETS = ['business', 'market', 'booking', 'product'];
const KINDS_OF_FILES = ['piece', 'cloth', 'elastic', 'thread', 'supply', 'place'];
// which fields of a fact, and of the goods in it, say when, where, whether and how many
const SUMMED = ['day', 'id', 'choice', 'count'];
const DAYS_AT_ONCE = 4;
const BOOKS = 'books';
const version = document.documentElement.dataset.version;

/** The files of a year: [name, what it is called]. */
export const FILES = [
  ['takings', 'Takings'],
  ['purchases', 'Purchases'],
  ['expenses', 'Expenses'],
  ['stock', 'Value of the stock'],
  ['figures', 'The figures here'],
];

/** Be told while days are summed up how many are, 0 to 1; returns the way to stop. */
export function onSumming(show) {
  shows.add(show);
  return () => shows.delete(show);
}
const shows = new Set();

/** Each market set beside the others, as `markets_told` tells. */
export const marketsTold = () => askKept('markets', 'markets_told', [today()], async () => ({ ...(await booked()), day: today() }));

/** One booking opened to its parts, as `booking_told` tells; undefined where it is not here. */
export async function bookingTold(booking) {
  if (!recordById('booking', booking)) return undefined;
  const asked = await booked();
  const sums = asked.sums.filter((row) => row.booking === booking);
  const days = [...new Set(sums.map(({ day }) => day))];
  const sold = (await factsOfDays(days)).filter((fact) => fact.booking === booking && isOfTakings(fact));
  const facts = [...asked.facts.filter((fact) => fact.kind !== 'purchase'), ...sold.map(slimmed)];
  return ask('booking_told', { ...asked, facts, sums, booking, voids: await voids() });
}

/** Days on which an offer was used beside days on which it was not, as `offer_days` tells. */
export const offerDays = (offer) => askKept(`offer ${offer}`, 'offer_days', [], () => offered(offer));

async function offered(offer) {
  const [asked, sales, voided] = await Promise.all([booked(['offer']), factsOf('sale'), factsOf('void')]);
  const used = sales.filter(({ offers }) => offers?.some((row) => row.offer === offer));
  const undone = voided.filter(({ sale }) => used.some(({ id }) => id === sale));
  return { ...asked, facts: [...asked.facts, ...used, ...undone], offer };
}

/** A year, YYYY, as `year_told` tells. */
export const yearTold = (year) =>
  askKept(`year ${year}`, 'year_told', [today()], async () => ({ ...(await booked(['overhead'])), year, day: today() }));

/** A file of a year: its name, its text, its type. */
export async function yearFile(file, year) {
  const over = year < today().slice(0, 4);
  const at = over ? new Date(`${Number(year) + 1}-01-01T00:00`).getTime() - 1 : Date.now();
  const asked = { ...(await booked(['overhead', ...KINDS_OF_FILES])), file, year, day: today(), at, currency: currency() };
  asked.stock = file === 'stock' ? await stockThen(over ? at : null) : null;
  return [`${year}-${file}.csv`, await ask('year_file', asked), 'text/csv'];
}

async function stockThen(at) {
  if (at === null) return stock();
  const places = Object.keys(recordsOf(['place']).place);
  const rows = await Promise.all(places.map(async (place) => (await stockAt(at, place)).filter((row) => row.place === place)));
  return rows.flat();
}

/** Sum up what came since the last time before somebody asks for it; `stopped` says whether to leave it. */
export async function keepBooks(stopped) {
  try {
    await upToDate(stopped, true);
    if (!stopped()) await costsOfGoods();
  } catch {
    // who asks hears of it
  }
}

// what results are made of, as the core takes it
async function booked(kinds = []) {
  const sums = await upToDate();
  const costs = await costsOfGoods();
  return { facts: await factsReadBy('ledger'), records: recordsOf([...KINDS_OF_MARKETS, ...kinds]), sums, costs };
}

async function costsOfGoods() {
  const gather = async () => ({ facts: await factsReadBy('goods_costs'), records: recordsOf(KINDS_OF_GOODS) });
  return (await keptOf('goods', [], gather, (args) => ask('goods_costs', args))).goods;
}

// one after another, as each begins with what the last found, and what is under way may have begun before the last change
let last = Promise.resolve();
let waiting = 0;
function upToDate(stopped = () => false, ahead = false) {
  waiting += ahead ? 0 : 1;
  const read = () => readOn(() => stopped() && !waiting);
  const mine = last.then(read, read).finally(() => {
    waiting -= ahead ? 0 : 1;
  });
  last = mine.catch(() => {});
  return mine;
}

async function readOn(stopped) {
  const stood = endOfLog();
  const before = kept(stood.cursor ?? 0);
  const { days, now, same } = await daysChanged(before, isOfTakings);
  const sums = [...before.sums.filter(({ day }) => !days.has(day)), ...(await sumsOf([...days], stopped))];
  sums.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  if (!same) await keepTotals(stood, { [BOOKS]: { held: { version, sums: JSON.stringify(sums), own: now.own }, through: now.through } });
  return sums;
}

const keyOf = ({ day, booking }) => `${day} ${booking ?? ''}`;

function kept(cursor) {
  const { held, through = 0 } = total(BOOKS) ?? {};
  if (held?.version !== version || through > cursor) return { sums: [], own: {}, through: 0 };
  return { sums: JSON.parse(held.sums), own: held.own, through };
}

// some days at a time, as taps are answered in between
async function sumsOf(days, stopped) {
  const sums = [];
  if (!days.length) return sums;
  const voided = await voids();
  for (let done = 0; done < days.length; done += DAYS_AT_ONCE) {
    if (stopped()) throw new Error('Nobody waits for it any more');
    const facts = await factsOfDays(days.slice(done, done + DAYS_AT_ONCE));
    sums.push(...(await ask('day_sums', { facts: facts.filter(isOfTakings).map(slimmed), voids: voided })));
    shows.forEach((show) => show(Math.min(1, (done + DAYS_AT_ONCE) / days.length)));
  }
  return sums;
}

// what of a fact sums are made of, by its declaration
function slimmed(fact) {
  const { fields } = kindNamed(fact.kind);
  const lists = fields.filter((field) => fact[field.name] && isOfGoods(field));
  const goods = lists.map(({ name, fields: parts }) => [name, fact[name].map((row) => summedOf(row, parts))]);
  const { kind, id, at, amount } = fact;
  return { kind, id, at, amount, ...summedOf(fact, fields), ...Object.fromEntries(goods) };
}

const isOfGoods = ({ fields = [] }) => fields.some(({ name }) => name === 'product');
const summedOf = (row, fields) => Object.fromEntries(fields.filter(({ quantity }) => SUMMED.includes(quantity)).map(({ name }) => [name, row[name]]));
