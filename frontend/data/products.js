/* What is sold: what a new product begins with, and products of several sizes and cloths made in one go. */
import { keepTogether } from './actions.js';
import { readMoney } from './calculating.js';
import { newId } from './clock.js';
import { recordById, records } from './records.js';
import { recall, remember } from './store/remembered.js';

const NOTHING = { sizes: [], cloths: [], prices: {}, ticks: {} };

/** Groups that products are in, which an offer may mix. */
export const groups = () => [...new Set(records('product').map(({ group }) => group))].filter(Boolean).sort();

/** What a new product of a size begins with: the price and group of its others where they agree, else no price (null),
    and the size's name as its group. */
export function startOfProduct(size) {
  const others = records('product').filter((product) => product.size === size);
  const shared = (name) => (others.every((product) => product[name] === others[0][name]) ? others[0]?.[name] : undefined);
  return { price: shared('price') ?? null, group: (shared('group') || recordById('piece', size)?.name) ?? '' };
}

/** What was typed of new sizes and cloths: {sizes: [{name, price}], cloths: [name], prices: {size: text}, ticks: {cell: on}}. */
export const draftOfGoods = () => recall('goods', NOTHING);
export const keepDraftOfGoods = (draft) => remember('goods', draft);

/** Sizes and cloths with what was typed, as they can be ticked: {sizes: [{key, id, name, price (null where it is asked
    for), typed}], cloths: [{key, id, name}], cells: {cell: {on, sold}}}. */
export function gridOf(draft) {
  const typed = (row, index) => ({ key: `new-${index}`, id: null, price: null, ...row, name: row.name.trim() });
  const named = ({ name }) => name;
  const sizes = [
    ...records('piece').map(({ id, name }) => ({ key: id, id, name, price: startOfProduct(id).price, typed: draft.prices[id] ?? '' })),
    ...draft.sizes.map(({ name, price }, index) => typed({ name, typed: price }, index)).filter(named),
  ];
  const cloths = [
    ...records('cloth').map(({ id, name }) => ({ key: id, id, name })),
    ...draft.cloths.map((name, index) => typed({ name }, index)).filter(named),
  ];
  const sold = new Set(records('product').map((product) => cellOf(product.size, product.cloth)));
  const cells = {};
  for (const size of sizes)
    for (const cloth of cloths) {
      const cell = cellOf(size.key, cloth.key);
      // what is new comes in all there is, until she says otherwise
      cells[cell] = { sold: sold.has(cell), on: sold.has(cell) || (draft.ticks[cell] ?? (!size.id || !cloth.id)) };
    }
  return { sizes, cloths, cells };
}

export const cellOf = (size, cloth) => `${size} ${cloth}`;

/** The products that a grid adds: [{size, cloth}], of its rows; one of a new size without any cloth has none. */
export function addedBy({ sizes, cloths, cells }) {
  return sizes.flatMap((size) => {
    const ticked = cloths.filter((cloth) => cells[cellOf(size.key, cloth.key)].on);
    if (!size.id && !ticked.length) return [{ size, cloth: null }];
    return ticked.filter((cloth) => !cells[cellOf(size.key, cloth.key)].sold).map((cloth) => ({ size, cloth }));
  });
}

/** What is wrong with what was typed, by the key of its size, or with `cloth ` before it of its cloth: {key: words}. */
export async function problemsOf(draft) {
  const { sizes, cloths, cells } = gridOf(draft);
  const problems = {};
  const priced = new Set(addedBy({ sizes, cloths, cells }).map(({ size }) => size));
  for (const size of [...priced].filter(({ price }) => price === null)) {
    const { problem } = await readMoney(size.typed);
    if (problem) problems[size.key] = size.typed.trim() ? problem : 'What does one cost?';
  }
  draft.sizes.forEach(({ name, price }, index) => {
    if (price.trim() && !name.trim()) problems[`new-${index}`] = 'What is this size called?';
  });
  for (const [rows, before] of [
    [sizes, ''],
    [cloths, 'cloth '],
  ]) {
    const names = rows.map(({ name }) => name.toLowerCase());
    rows.forEach(({ id, key, name }, index) => {
      if (!id && names.indexOf(names[index]) < index) problems[before + key] = `${name} is there already`;
    });
  }
  return problems;
}

/** Keep the products that a draft adds, with their new sizes and cloths, all or none; the draft is empty then.
    Resolves to all that was described, as [kind, id], to be taken back. */
export async function addGoods(draft) {
  const grid = gridOf(draft);
  const added = addedBy(grid);
  const ids = new Map([...grid.sizes, ...grid.cloths].map((row) => [row, row.id ?? newId()]));
  const prices = new Map();
  for (const { size } of added) prices.set(size, size.price ?? (await readMoney(size.typed)).amount);
  const made = (kind, rows) => rows.filter(({ id }) => !id).map((row) => [kind, { name: row.name }, ids.get(row)]);
  const products = added.map(({ size, cloth }) => [
    'product',
    { size: ids.get(size), cloth: cloth && ids.get(cloth), price: prices.get(size), group: size.id ? startOfProduct(size.id).group : size.name },
    newId(),
  ]);
  const described = [...made('piece', grid.sizes), ...made('cloth', grid.cloths), ...products];
  await keepTogether({ described });
  await keepDraftOfGoods(NOTHING);
  return described.map(([kind, , id]) => [kind, id]);
}

/** Take back what was just described; what was typed for it is there again. */
export async function takeGoodsBack(described, draft) {
  await keepTogether({ edited: described.map(([kind, id]) => [kind, id, { archived: true }]) });
  await keepDraftOfGoods(draft);
}
