/* What there is to count or to pack: by size, what is here first; and places to choose from. */
import { html } from 'htm/preact';
import { nameOf } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { piecesAt } from '../../data/stock.js';
import { Choice } from '../parts/choice.js';
import { useFollowed } from '../parts/use-records.js';

/** Groups of things by size: [{size, name, things: [{key, product or size, name, full, here}]}]. The
    last of each group is the size itself, whose cloth nobody knows. */
export function groupsOf(isHere) {
  const products = records('product').filter((product) => product.active || isHere(product.id));
  const sizes = [...records('piece').map((piece) => piece.id), null];
  const known = new Set(sizes);
  return sizes
    .map((size) => {
      const name = nameOf('piece', recordById('piece', size)) || 'Other';
      const ours = products.filter((product) => product.size === size || (!size && !known.has(product.size)));
      const things = ours.map((product) => ({
        key: product.id,
        product: product.id,
        full: nameOf('product', product),
        here: isHere(product.id),
        name: product.name || nameOf('cloth', recordById('cloth', product.cloth)) || name,
      }));
      things.sort((a, b) => b.here - a.here || a.name.localeCompare(b.name));
      if (size && ours.length) things.push({ key: size, size, name: 'Cloth not named', full: `${name}, cloth not named`, here: isHere(size) });
      return { size, name, things };
    })
    .filter(({ things }) => things.length);
}

/** Rows of goods in the order of the screens. */
export function inOrder(rows) {
  const keys = groupsOf(() => true).flatMap(({ things }) => things.map(({ key }) => key));
  const order = new Map(keys.map((key, index) => [key, index]));
  return [...rows].sort((a, b) => (order.get(keyOf(a)) ?? 0) - (order.get(keyOf(b)) ?? 0));
}

/** What tells goods apart: a product, or a size alone. */
export const keyOf = ({ product, size }) => product ?? size;

/** What a product, or a size alone, is called. */
export function thingInWords({ product, size }) {
  if (product) return nameOf('product', recordById('product', product));
  return `${nameOf('piece', recordById('piece', size)) || 'Size'}, cloth not named`;
}

/** Pieces at a place by product or size, as `piecesAt` tells them, now or at a past time (UTC ms); null until they are known. */
export function useStockAt(place, at = null) {
  return useFollowed(() => piecesAt(place, at), [place, at]);
}

export const placeInWords = (id) => nameOf('place', recordById('place', id));

/** A place to choose. */
export function PlaceChoice(props) {
  return html`<${Choice} ...${props} choices=${records('place').map(({ id, name }) => [id, name])} />`;
}

/** What else is done in Count. */
export function Ways() {
  return html`
    <nav class="ways plain" aria-label="More in Count">
      <a href="/count/pack">Pack <span>What goes to the next market; it changes place when it is packed</span></a>
      <a href="/count/stock">Stock by place <span>Now or at any time before, and what is spoilt, given away, lost</span></a>
    </nav>
  `;
}
