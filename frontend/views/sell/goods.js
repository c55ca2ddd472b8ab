/* What she sells: sizes with a price each, cloths, and a tick for each size there is in a cloth. */
import { countInWords } from '../../data/naming.js';
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { kindNamed } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';
import { addedBy, addGoods, cellOf, draftOfGoods, gridOf, keepDraftOfGoods, problemsOf, takeGoodsBack } from '../../data/products.js';
import { mayAdd } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { backTo } from '../parts/way-back.js';

const EMPTY_SIZE = { name: '', price: '' };

export function Goods() {
  useRecords();
  const { route, query } = useLocation();
  const [draft, setDraft] = useState(draftOfGoods);
  const [problems, setProblems] = useState({});
  const [tried, setTried] = useState(false);
  useEffect(() => {
    let current = true;
    problemsOf(draft).then((found) => current && setProblems(found));
    return () => {
      current = false;
    };
  }, [draft]);
  const change = (more) => {
    setDraft({ ...draft, ...more });
    keepDraftOfGoods({ ...draft, ...more });
  };
  const grid = gridOf(draft);
  const added = addedBy(grid).length;
  const save = useOnce(async () => {
    setTried(true);
    const wrong = await problemsOf(draft);
    setProblems(wrong);
    if (Object.keys(wrong).length || !added) return;
    const back = (described) => saying('Taken back', () => takeGoodsBack(described, draft));
    if (await saying(productsInWords(added, 'added'), () => addGoods(draft), back)) route(backTo(query, '/sell'));
  });
  if (!mayAdd('product')) return html`<h1>What you sell</h1><p class="hint">An owner's phone says what is sold.</p>`;
  const told = tried ? problems : {};
  return html`
    <h1>What you sell</h1>
    <p class="lead">Name your sizes, with a price each, and your cloths. Each size in each cloth becomes a product; untick what you do not have.</p>
    <form class="sell-goods" onSubmit=${save} novalidate autocomplete="off">
      <${Sizes} draft=${draft} change=${change} grid=${grid} problems=${told} />
      <${Cloths} draft=${draft} change=${change} grid=${grid} problems=${told} />
      ${grid.sizes.length > 0 && grid.cloths.length > 0 && html`<${Cells} draft=${draft} change=${change} grid=${grid} />`}
      <p class="hint">Measures of a new size begin with the usual ones; those of a cloth are asked for when you buy or cut.</p>
      <div class="dock next-steps"><button type="submit" class="main" data-add-goods=${added} disabled=${!added}>${added ? `Add ${productsInWords(added)}` : 'Nothing to add yet'}</button></div>
    </form>
  `;
}

const productsInWords = (count, done) => [countInWords(count, 'product'), done].filter(Boolean).join(' ');

// there is always an empty one to go on with
const withEmpty = (rows, empty) => (rows.length && isEmpty(rows.at(-1)) ? rows : [...rows, empty]);
const isEmpty = (row) => !(row.name ?? row).trim() && !row.price?.trim();

function Sizes({ draft, change, grid, problems }) {
  const rows = withEmpty(draft.sizes, EMPTY_SIZE);
  const type = (index, more) => change({ sizes: rows.with(index, { ...rows[index], ...more }) });
  return html`
    <fieldset class="group">
      <legend>Sizes</legend>
      ${grid.sizes
        .filter(({ id }) => id)
        .map((size) =>
          size.price === null
            ? html`<div class="fields" key=${size.key}><${Price} size=${size.key} label=${`${size.name}, price of one`} value=${size.typed} problem=${problems[size.key]}
                type=${(text) => change({ prices: { ...draft.prices, [size.id]: text } })} /></div>`
            : html`<p key=${size.key}>${size.name} <span class="number">${showMoney(size.price)}</span></p>`,
        )}
      ${rows.map(
        ({ name, price }, index) => html`
        <div class="fields" key=${`new-${index}`}>
          <${Name} kind="piece" id=${`size-${index}`} label="Size" value=${name} type=${(text) => type(index, { name: text })} />
          <${Price} size=${`new-${index}`} label="Price of one" value=${price} problem=${problems[`new-${index}`]} type=${(text) => type(index, { price: text })} />
        </div>
      `,
      )}
    </fieldset>
  `;
}

function Cloths({ draft, change, grid, problems }) {
  const rows = withEmpty(draft.cloths, '');
  const here = grid.cloths.filter(({ id }) => id);
  return html`
    <fieldset class="group">
      <legend>Cloths</legend>
      ${here.length > 0 && html`<p>${here.map(({ name }) => name).join(', ')}</p>`}
      <div class="fields">
        ${rows.map(
          (
            name,
            index,
          ) => html`<${Name} key=${index} kind="cloth" id=${`cloth-${index}`} label="Cloth" value=${name} problem=${problems[`cloth new-${index}`]}
            type=${(text) => change({ cloths: rows.with(index, text) })} />`,
        )}
      </div>
    </fieldset>
  `;
}

function Name({ kind, id, label, value, type, problem }) {
  const { most } = kindNamed(kind).fields.find(({ name }) => name === 'name');
  return html`<${Labelled} id=${id} label=${label} problem=${problem}>
    <input id=${id} name=${id} maxlength=${most} aria-invalid=${problem ? 'true' : undefined} value=${value} onInput=${({ target }) => type(target.value)} />
  <//>`;
}

function Price({ size, label, value, type, problem }) {
  const id = `price-${size}`;
  return html`<${Labelled} id=${id} label=${label} problem=${problem}>
    <input id=${id} name=${id} inputmode="decimal" aria-invalid=${problem ? 'true' : undefined} value=${value} onInput=${({ target }) => type(target.value)} />
    <span class="unit" aria-hidden="true">${currency()}</span>
  <//>`;
}

function Labelled({ id, label, problem, children }) {
  return html`
    <div class="field">
      <label for=${id}>${label}</label>
      <span class="control">${children}</span>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
    </div>
  `;
}

function Cells({ draft, change, grid: { sizes, cloths, cells } }) {
  const tick = (cell) => change({ ticks: { ...draft.ticks, [cell]: !cells[cell].on } });
  return html`
    <fieldset class="group">
      <legend>Which size in which cloth</legend>
      ${sizes.map(
        (size) => html`
        <div role="group" aria-labelledby=${`cells-${size.key}`} key=${size.key}>
          <p id=${`cells-${size.key}`}><strong>${size.name}</strong></p>
          <p class="start-from">${cloths.map((cloth) => {
            const cell = cellOf(size.key, cloth.key);
            const { on, sold } = cells[cell];
            return html`<button type="button" class="chip" key=${cell} data-cell=${sold ? 'sold' : on} aria-pressed=${on} disabled=${sold} onClick=${() => tick(cell)}>${cloth.name}${sold && ' · added already'}</button>`;
          })}</p>
        </div>
      `,
      )}
    </fieldset>
  `;
}
