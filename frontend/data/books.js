/* What bookings, markets and years came to, worked out by the core; for owners. What was taken is summed up day by
   day and kept, with the facts that costs are made of, up to a number of the log: what came later is added. */
import { ask } from './asking.js';
import { kindNamed } from './calculating.js';
import { today } from './clock.js';
import { factsOf, factsOfDay } from './facts.js';
import { currency } from './preferences.js';
import { factsIn } from './readable.js';
import { askKept, standing } from './kept-answers.js';
import { recordById, recordsOf } from './records.js';
import { ownFacts, stock, stockAt, voids } from './stock.js';
import { keepTotals, loggedAfter, loggedByIds, total } from './store.js';

const OF_GOODS = ['cut', 'batch-result', 'purchase', 'cut-void', 'batch-void', 'purchase-void', 'left-out'];
const OF_COSTS = ['expense', 'work-time', 'wage-set', 'purchase', 'expense-void', 'purchase-void', 'left-out'];
const KINDS_OF_GOODS = ['piece', 'cloth', 'remnant', 'elastic', 'thread', 'supply', 'product', 'batch'];
const KINDS_OF_MARKETS = ['business', 'market', 'booking', 'product'];
const KINDS_OF_FILES = ['piece', 'cloth', 'elastic', 'thread', 'supply', 'place'];
const SUMMED = ['kind', 'id', 'at', 'day', 'booking', 'place', 'amount', 'payment', 'goods'];
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
export const marketsTold = async () => askKept('markets', 'markets_told', { ...(await booked()), day: today() });

/** One booking opened to its parts, as `booking_told` tells; undefined where it is not here. */
export async function bookingTold(booking) {
  if (!recordById('booking', booking)) return undefined;
  const asked = await booked();
  const sums = asked.sums.filter((row) => row.booking === booking);
  const days = [...new Set(sums.map(({ day }) => day))];
  const sold = (await Promise.all(days.map(factsOfDay))).flat().filter((fact) => fact.booking === booking && isTaken(fact));
  const facts = [...asked.facts.filter((fact) => fact.kind !== 'purchase'), ...sold.map(slimmed)];
  return ask('booking_told', { ...asked, facts, sums, booking, voids: await voids() });
}

/** Days on which an offer was used beside days on which it was not, as `offer_days` tells. */
export async function offerDays(offer) {
  const [asked, sales, voided] = await Promise.all([booked(['offer']), factsOf('sale'), factsOf('void')]);
  const used = sales.filter(({ offers }) => offers?.some((row) => row.offer === offer));
  const undone = voided.filter(({ sale }) => used.some(({ id }) => id === sale));
  return askKept(`offer ${offer}`, 'offer_days', { ...asked, facts: [...asked.facts, ...used, ...undone], offer });
}

/** A year, YYYY, as `year_told` tells. */
export const yearTold = async (year) => askKept(`year ${year}`, 'year_told', { ...(await booked(['overhead'])), year, day: today() });

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
export const keepBooks = (stopped) => upToDate(stopped).catch(() => {});

// what results are made of, as the core takes it
async function booked(kinds = []) {
  const { facts, sums } = await upToDate();
  const goods = { facts: ofKinds(facts, OF_GOODS), records: recordsOf(KINDS_OF_GOODS) };
  const { goods: costs } = await askKept('goods', 'goods_costs', goods);
  return { facts: ofKinds(facts, OF_COSTS), records: recordsOf([...KINDS_OF_MARKETS, ...kinds]), sums, costs };
}

const ofKinds = (facts, kinds) => facts.filter(({ kind }) => kinds.includes(kind));

// one asking at a time: whoever asks meanwhile has the same answer
let asking = null;
let wanted = false;
function upToDate(stopped) {
  wanted ||= !stopped;
  asking ??= readOn(() => stopped?.() && !wanted).finally(() => {
    asking = null;
    wanted = false;
  });
  return asking;
}

async function readOn(stopped) {
  const stood = standing();
  const cursor = stood.cursor ?? 0;
  const before = kept(cursor);
  const own = ownFacts();
  const fresh = cursor > before.through ? await factsIn((await loggedAfter(before.through)).filter(({ seq }) => seq <= cursor)) : [];
  const pulled = [...before.facts, ...ofKinds(fresh, [...OF_GOODS, ...OF_COSTS])];
  const ownDays = marksOf(own);
  const touched = new Set([...fresh.filter(isTaken).map(({ day }) => day), ...changedDays(before.own, ownDays)]);
  const undone = [...fresh, ...(before.own.voids === ownDays.voids ? [] : own)].map(targetOf).filter(Boolean);
  for (const day of await daysOf(undone, [...own, ...fresh])) touched.add(day);
  const sums = [...before.sums.filter(({ day }) => !touched.has(day)), ...(await sumsOf([...touched], stopped))];
  sums.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
  if (fresh.length || touched.size || before.through !== cursor) await keep(stood, { facts: pulled, sums, own: ownDays });
  const each = new Map([...pulled, ...own].map((fact) => [fact.id, fact]));
  return { facts: [...each.values()], sums };
}

const keyOf = ({ day, booking }) => `${day} ${booking ?? ''}`;

function kept(cursor) {
  const { held, through = 0 } = total(BOOKS) ?? {};
  if (held?.version !== version || through > cursor) return { facts: [], sums: [], own: {}, through: 0 };
  return { facts: JSON.parse(held.facts), sums: JSON.parse(held.sums), own: held.own, through };
}

// as texts, which a start reads sooner than objects
function keep(stood, { facts, sums, own }) {
  const held = { version, facts: JSON.stringify(facts), sums: JSON.stringify(sums), own };
  return keepTotals(stood, { [BOOKS]: { held, through: stood.cursor ?? 0 } });
}

const isTaken = ({ kind }) => Boolean(kindNamed(kind)?.takings);
const targetOf = (fact) => fact[kindNamed(fact.kind)?.voids];

// what tells whether own facts of a day are others than before: how many, and the last of them
function marksOf(own) {
  const days = new Map();
  for (const { day, id } of own.filter(isTaken)) days.set(day, { count: (days.get(day)?.count ?? 0) + 1, id });
  const marks = Object.fromEntries([...days].map(([day, { count, id }]) => [day, `${count} ${id}`]));
  const undoing = own.filter(targetOf);
  return { ...marks, voids: `${undoing.length} ${undoing.at(-1)?.id}` };
}

function changedDays(before, now) {
  const days = new Set([...Object.keys(before), ...Object.keys(now)]);
  days.delete('voids');
  return [...days].filter((day) => before[day] !== now[day]);
}

async function daysOf(ids, known) {
  const here = new Map(known.map((fact) => [fact.id, fact.day]));
  const missing = ids.filter((id) => !here.has(id));
  const logged = missing.length ? await factsIn(await loggedByIds(missing)) : [];
  return [...ids.map((id) => here.get(id)), ...logged.map(({ day }) => day)].filter(Boolean);
}

// some days at a time, as taps are answered in between
async function sumsOf(days, stopped) {
  const sums = [];
  if (!days.length) return sums;
  const voided = await voids();
  for (let done = 0; done < days.length; done += DAYS_AT_ONCE) {
    if (stopped()) throw new Error('Nobody waits for it any more');
    const facts = (await Promise.all(days.slice(done, done + DAYS_AT_ONCE).map(factsOfDay))).flat();
    sums.push(...(await ask('day_sums', { facts: facts.filter(isTaken).map(slimmed), voids: voided })));
    shows.forEach((show) => show(Math.min(1, (done + DAYS_AT_ONCE) / days.length)));
  }
  return sums;
}

// what of a fact sums are made of
function slimmed(fact) {
  const lists = ['lines', 'returned'].filter((name) => fact[name]);
  const goods = ({ product, size, quantity }) => ({ product, size, quantity });
  const rows = Object.fromEntries(lists.map((name) => [name, fact[name].map(goods)]));
  return { ...Object.fromEntries(SUMMED.map((name) => [name, fact[name]])), ...rows };
}
