/* The tiles of a stall: a tap is one piece, held down it is asked how many; many of them lie by size, with a filter. */
import { useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { useArrows } from '../parts/arrows.js';
import { showMoney } from '../parts/money.js';

// so many are looked over at once
const FEW = 12;
const HOLD_MS = 500;
const ALL = { size: '', cloth: '' };

/** The tiles; `tap` and `asked` take a thing, `hold` a thing and what was typed on it, null where it is one piece a tap. */
export function Tiles({ tiles, left, made, mode, tap, asked, hold }) {
  const list = useRef();
  const arrows = useArrows(list);
  const [filter, setFilter] = useState(ALL);
  const thingOf = ({ target }, name = 'product') => tiles.find(({ key }) => key === target.closest('button')?.dataset[name]);
  const holding = useHold(hold && ((event) => hold(thingOf(event), '')), thingOf);
  const many = tiles.length > FEW;
  const shown = many ? tiles.filter((thing) => fits(thing, filter) || isIn(made, thing)) : tiles;
  const click = (event) => {
    // a click without a finger is the keyboard's
    if (holding.ended() && event.detail) return;
    const [thing, wanted] = [thingOf(event), thingOf(event, 'asked')];
    if (wanted) asked(wanted);
    else if (thing) tap(thing);
  };
  const keyed = (event) => {
    const thing = hold && /^[1-9]$/.test(event.key) && !event.ctrlKey && !event.metaKey && !event.altKey && thingOf(event);
    if (thing) {
      event.preventDefault();
      hold(thing, event.key);
    } else arrows.onKeyDown(event);
  };
  // a tap changes one tile: the others are the ones that were made before, at which nothing looks again
  const drawn = useRef(new Map());
  const tile = (thing) => {
    const props = { thing, short: many, held: heldOf(left, thing), taken: piecesOf(made.lines, thing) };
    const before = drawn.current.get(thing.key);
    if (before && Object.keys(props).every((name) => before.props[name] === props[name])) return before;
    const fresh = html`<${Tile} key=${thing.key} ...${props} />`;
    drawn.current.set(thing.key, fresh);
    return fresh;
  };
  return html`
    ${many && html`<${Filter} tiles=${tiles} filter=${filter} set=${setFilter} />`}
    ${many && !shown.length && html`<p class="lead" role="status">No size in that cloth. <button type="button" onClick=${() => setFilter(ALL)}>Show all</button></p>`}
    <div class="sell-tiles" data-mode=${mode} data-many=${many || undefined} ref=${list} onClick=${click} ...${holding.on} onFocusIn=${arrows.onFocusIn} onKeyDown=${keyed}>
      ${
        many
          ? bySize(shown).map(
              ({ size, things }) =>
                html`<section key=${size}><h2>${nameOf('piece', recordById('piece', size)) || 'Other'}</h2><ul>${things.map(tile)}</ul></section>`,
            )
          : html`<ul>${shown.map(tile)}</ul>`
      }
    </div>
  `;
}

const heldOf = (left, { product }) => (left && product ? left.get(product) : null);
const piecesOf = (lines, { key }) => lines.find((line) => line.key === key)?.quantity ?? 0;
const isIn = ({ lines, returned }, thing) => piecesOf(lines, thing) + piecesOf(returned, thing) > 0;
const fits = ({ inSize, inCloth }, { size, cloth }) => (!size || inSize === size) && (!cloth || inCloth === cloth);

// a size lies where the first of its tiles would
function bySize(tiles) {
  const sizes = new Map();
  for (const thing of tiles) sizes.set(thing.inSize, [...(sizes.get(thing.inSize) ?? []), thing]);
  return [...sizes].map(([size, things]) => ({ size, things }));
}

function Filter({ tiles, filter, set }) {
  const choice = (name, kind, all, ids) => html`
    <span class="control"><select aria-label=${`Show ${all.toLowerCase()}, or one`} data-filter=${name} onChange=${({ target }) => set({ ...filter, [name]: target.value })}>
      <option value="" selected=${!filter[name]}>${all}</option>
      ${[...new Set(ids)].filter(Boolean).map((id) => html`<option value=${id} selected=${id === filter[name]}>${nameOf(kind, recordById(kind, id))}</option>`)}
    </select></span>`;
  return html`
    <div class="sell-filter" role="group" aria-label="Filter">
      ${choice(
        'size',
        'piece',
        'All sizes',
        tiles.map(({ inSize }) => inSize),
      )}
      ${choice(
        'cloth',
        'cloth',
        'All cloths',
        tiles.map(({ inCloth }) => inCloth),
      )}
      ${filter !== ALL && (filter.size || filter.cloth) && html`<button type="button" data-show-all onClick=${() => set(ALL)}>Show all</button>`}
    </div>
  `;
}

// held down, or asked for by the key or the button for a menu; the tap that ends it is none
function useHold(hold, thingOf) {
  const timer = useRef(null);
  const held = useRef(false);
  const stop = () => clearTimeout(timer.current);
  const begin = (event) => {
    stop();
    held.current = false;
    if (!hold || event.button || !thingOf(event)) return;
    timer.current = setTimeout(() => {
      held.current = true;
      hold(event);
    }, HOLD_MS);
  };
  const menu = (event) => {
    if (!hold || !thingOf(event)) return;
    event.preventDefault();
    stop();
    if (!held.current) hold(event);
    held.current = true;
  };
  const ended = () => {
    const was = held.current;
    held.current = false;
    return was;
  };
  return { on: { onPointerDown: begin, onPointerUp: stop, onPointerCancel: stop, onPointerLeave: stop, onContextMenu: menu }, ended };
}

function Tile({ thing, short, held, taken }) {
  const pieces = held === null ? null : held - taken;
  const out = pieces !== null && pieces <= 0;
  const asks = out && !taken;
  const price = showMoney(thing.price);
  return html`
    <li class="sell-tile" data-out=${out || undefined} data-asks=${asks || undefined}>
      <button type="button" tabindex="-1" data-product=${thing.key}
        aria-label=${`${thing.name}, ${price}${pieces === null ? '' : `, ${Math.max(pieces, 0)} left`}${taken ? `, ${taken} in the basket` : ''}`}>
        <strong>${short ? thing.short : thing.name}</strong>
        <span><span class="number">${price}</span>
          ${pieces !== null && html` <small data-left=${pieces}>${out ? 'sold out' : `${pieces} left`}</small>`}</span>
        ${taken > 0 && html`<span class="sell-count number" aria-hidden="true">${taken}</span>`}
      </button>
      ${asks && html`<button type="button" tabindex="-1" class="sell-asked" data-asked=${thing.key} aria-label=${`${thing.name}: asked for, none left`}>asked for</button>`}
    </li>
  `;
}
