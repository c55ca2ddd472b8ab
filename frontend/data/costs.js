/* What a piece costs and what prices leave of it, worked out by the core from what is recorded; for owners. */
import { keepTogether, state } from './actions.js';
import { ask } from './asking.js';
import { today } from './clock.js';
import { factsOf } from './facts.js';
import { factsReadBy } from './facts-of-costs.js';
import { keptOf } from './kept-answers.js';
import { nameOf } from './naming.js';
import { notVoided } from './purchases.js';
import { recordById, records, recordsOf } from './records.js';
import { recall, remember } from './store/remembered.js';

// most of what is asked is read once for so many; other questions come in between
const AT_ONCE = 25;
const KINDS = ['business', 'piece', 'cloth', 'remnant', 'elastic', 'thread', 'supply', 'product', 'batch', 'overhead'];
const OF_PRICES = ['offer', 'market'];

/** What a cost can be of: [[key, name]], each product by itself, and before them each size in all its cloths. */
export function goodsToCost() {
  const products = records('product');
  const sizes = records('piece').filter(({ id }) => products.filter(({ size }) => size === id).length > 1);
  return [...sizes.map(({ id, name }) => [id, `${name}, all cloths`]), ...products.map((product) => [product.id, nameOf('product', product)])];
}

/** The products behind such a key. */
export function productsOf(key) {
  const ofSize = records('product').filter(({ size }) => size === key);
  return (ofSize.length ? ofSize : records('product').filter(({ id }) => id === key)).map(({ id }) => id);
}

/** What is looked at: a key of `goodsToCost`. */
export const goodsLookedAt = () => recall('costing', {}).goods;
export const lookAtGoods = (goods) => remember('costing', { ...recall('costing', {}), goods });

/** What is chosen for prices: what the core takes as `choices`. */
export const priceChoices = () => recall('costing', {}).choices ?? {};
export const keepPriceChoices = (choices) => remember('costing', { ...recall('costing', {}), choices });

/** What a piece of some products costs, as the core's `cost_of_goods` tells; null where no batch made any. */
export async function costOf(goods) {
  return ask('cost_of_goods', { facts: await factsReadBy('cost_of_goods'), records: recordsOf(KINDS), product_ids: goods, day: today() });
}

/** What their prices leave, as `prices_of_goods` tells. */
export async function pricesOf(goods, choices) {
  const sales = (await factsOf('sale')).filter(({ offers }) => offers?.length);
  const facts = [...(await factsReadBy('cost_of_goods')), ...sales, ...(await factsOf('void'))];
  return ask('prices_of_goods', { facts, records: recordsOf([...KINDS, ...OF_PRICES]), product_ids: goods, day: today(), choices });
}

/** What one of each product costs: {product: {cost_each, cash_each (without labour), unbought}, null where no batch made any}; remembered
    until what it is made of changes. `show` is told how many of how many are there, where it takes longer. */
export async function costsEach(show) {
  const gather = async () => [(await factsReadBy('cost_of_goods')).map(({ id }) => id), recordsOf(KINDS)];
  return keptOf('costs-each', [], gather, ([, described]) => askEach(described, show));
}

async function askEach(described, show) {
  const asked = { facts: await factsReadBy('cost_of_goods'), records: described };
  const products = records('product').map(({ id }) => id);
  const costs = {};
  for (let done = 0; done < products.length; done += AT_ONCE) {
    show(done, products.length);
    Object.assign(costs, await ask('costs_each', { ...asked, product_ids: products.slice(done, done + AT_ONCE) }));
  }
  return costs;
}

/** Ask another price of products from today on; resolves to the way back. */
export async function askPrice(goods, price) {
  const before = goods.map((id) => recordById('product', id).price);
  const ask = (prices) =>
    keepTogether({
      facts: goods.map((product, index) => ['price-set', { day: today(), product, price: prices[index], from: today() }]),
      edited: goods.map((product, index) => ['product', product, { price: prices[index] }]),
    });
  await ask(goods.map(() => price));
  return () => ask(before);
}

/** What an hour is paid from today on, of one person, or of all who have no wage of their own. */
export const setWage = (wage, person) => state('wage-set', { day: today(), wage, person: person || null, from: today() });

/** The last wage set: of all, or of one person. */
export async function wages() {
  const set = await notVoided('wage-set');
  return set.filter(({ person }, index) => set.findIndex((other) => other.person === person) === index);
}

/** The goods of the last batch, a key of `goodsToCost`; the first there are where none was finished. */
export async function goodsMadeLast() {
  const made = new Set((await notVoided('batch-result')).flatMap(({ lines }) => lines.map(({ product }) => product)));
  const known = records('product').map(({ id }) => id);
  return [...made].find((id) => known.includes(id)) ?? known[0];
}
