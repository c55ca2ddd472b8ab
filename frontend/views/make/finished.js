/* What came of a batch: made and good by product, and where the goods go; later, what was recorded, and voiding it. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import {
  closeBatch,
  factsOfBatch,
  finishBatch,
  finishedLines,
  isOpen,
  keepSaid,
  resultsOf,
  saidOf,
  sewnInWords,
  undoFinish,
} from '../../data/batches.js';
import { readMoney } from '../../data/calculating.js';
import { batchInWords, countInWords, dayInWords, nameOf } from '../../data/naming.js';
import { startOfProduct } from '../../data/products.js';
import { mayAdd, recordById, records } from '../../data/records.js';
import { recall } from '../../data/store/remembered.js';
import { Choice } from '../parts/choice.js';
import { KeptState } from '../parts/kept-state.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed } from '../parts/use-records.js';
import { Missing } from '../parts/way-back.js';
import { After, isAllAfter, useSafety } from './batch-safety.js';

export function Finished({ id }) {
  const told = useFollowed(async () => {
    const batch = recordById('batch', id);
    if (!batch) return { batch };
    return { batch, results: await resultsOf(batch), rows: await finishedLines(batch), samples: await factsOfBatch('sample-result', id) };
  }, [id]);
  if (!told) return html`<h1>Finished</h1>`;
  const { batch, results, rows, samples } = told;
  if (!batch) return html`<${NoSuchScreen} />`;
  return html`
    <h1>${batchInWords(batch)}, finished</h1>
    <p class="lead">${sewnInWords(batch)}</p>
    ${samples.map(({ id: key, sample, found, verdict }) => html`<p key=${key} data-sample=${verdict}>Sample of ${sample}: ${found.length ? found.map(({ fault, quantity }) => `${quantity} × ${fault}`).join(', ') : 'nothing wrong'}. ${verdict === 'accept' ? 'Good enough.' : 'Too many: look at all.'}</p>`)}
    ${results.map((result) => html`<${Result} key=${result.id} batch=${batch} result=${result} />`)}
    ${isOpen(batch) && html`<${Record} batch=${batch} rows=${rows} />`}
  `;
}

const rowName = ({ product, size, cloth }) => nameOf('product', product ? recordById('product', product) : { size, cloth });
const placeName = (id) => nameOf('place', recordById('place', id));

// where goods went last, else the shelf at home
const usualPlace = () =>
  [({ id }) => id === recall('batch-place'), ({ use }) => use === 'home', () => true].map((is) => records('place').find(is)).find(Boolean)?.id;

function Record({ batch, rows }) {
  const { route } = useLocation();
  const [place, setPlace] = useState(usualPlace);
  const [said, setSaid] = useState(() => saidOf(batch.id));
  const [ticked, setTicked] = useState([]);
  const [problem, setProblem] = useState('');
  const safety = useSafety(nameOf('person', recordById('person', recall('batch-person'))));
  // who may not say what a new product costs records what is sold already; the rest stays in the batch
  const stays = mayAdd('product') ? [] : rows.filter(({ product }) => !product);
  const lines = rows
    .filter((row) => !stays.includes(row))
    .map((row) => {
      const { made = row.made, good = made, price = null } = said[keyOf(row)] ?? {};
      return { ...row, made, good: Math.min(good, made), price };
    });
  const put = (row, more) => {
    const next = { ...said, [keyOf(row)]: { ...said[keyOf(row)], ...more } };
    keepSaid(batch.id, next);
    setSaid(next);
  };
  const good = lines.reduce((sum, line) => sum + line.good, 0);
  const undo = async (done) => {
    await saying(stays.length ? 'Undone' : 'Undone: the batch is open again', () => undoFinish(done));
    keepSaid(batch.id, said);
    route(`/make/batches/${batch.id}`);
  };
  const record = useOnce(async () => {
    const priced = await Promise.all(lines.map(withPrice));
    const bad = priced.find((line) => line.problem);
    setProblem(bad?.problem ?? '');
    if (bad) return;
    if (
      await saying(
        `${countInWords(good, 'piece is', 'pieces are')} in stock: ${placeName(place)}`,
        () => finishBatch(batch, place, priced, stays.length > 0),
        undo,
      )
    )
      route('/make');
  });
  if (!records('place').length) return html`<${Missing} kind="place" says="Where do the goods go? There is no place yet." does="Add a place" />`;
  if (!rows.length) return html`<${AllRecorded} batch=${batch} />`;
  if (stays.length && !lines.length) return html`<${Stays} rows=${stays} batch=${batch} />`;
  if (!safety) return null;
  const ready = isAllAfter(safety, ticked);
  return html`
    <section class="plain">
      <h2>Made and good</h2>
      <ul class="lines make-made">${lines.map((line) => html`<${Line} key=${keyOf(line)} line=${line} put=${(more) => put(line, more)} />`)}</ul>
      ${problem && html`<p class="problem" role="alert">${problem}</p>`}
      <${Choice} id="goods-to" name="place" label="The good ones go to" value=${place} set=${setPlace} choices=${records('place').map(({ id, name }) => [id, name])} />
    </section>
    ${stays.length > 0 && html`<${Stays} rows=${stays} />`}
    <${After} safety=${safety} ticked=${ticked} set=${setTicked} />
    <div class="dock next-steps">
      <button type="button" class="main" data-finish=${good} disabled=${!ready} onClick=${record}>${ready ? `Record: ${good} good to ${placeName(place)}` : 'Tick what comes after'}</button>
    </div>
  `;
}

// two phones may have recorded all of it between them
function AllRecorded({ batch }) {
  const { route } = useLocation();
  const close = useOnce(async () => {
    const done = await saying(`${batchInWords(batch)} is finished`, async () => {
      await closeBatch(batch.id);
      return true;
    });
    if (done) route('/make');
  });
  return html`<p class="lead">All of it is recorded.</p><p><button type="button" class="main" data-close onClick=${close}>Close the batch</button></p>`;
}

const keyOf = ({ product, size, cloth }) => product ?? `${size} ${cloth}`;

// what nobody has put a price to: an owner's phone asks for it when this batch is finished there
function Stays({ rows, batch }) {
  return html`
    <section class="plain" data-stays=${rows.length}>
      <h2>For an owner to finish</h2>
      <ul class="lines">${rows.map((row) => html`<li key=${keyOf(row)}><span>${rowName(row)}<small>not sold yet: it has no price</small></span> <strong class="number">${row.quantity}</strong></li>`)}</ul>
      <p>Their strips stay in this batch. An owner opens it on their phone, says what one costs, and records them; once they are sold, you can record them here, too.</p>
      ${batch && html`<p><a class="button" href=${`/make/batches/${batch.id}`}>Back to the batch</a></p>`}
    </section>
  `;
}

// a size and cloth that is sold for the first time costs what the size does, or what is typed
async function withPrice(line) {
  if (line.product) return line;
  const start = startOfProduct(line.size);
  if (line.price === null && start.price !== null) return { ...line, price: start.price, group: start.group };
  const { amount, problem } = await readMoney(line.price ?? '');
  return { ...line, price: amount, group: start.group, problem: problem && `${rowName(line)} is new: what does one cost?` };
}

function Line({ line, put }) {
  const name = rowName(line);
  const isNew = !line.product;
  const asks = isNew && startOfProduct(line.size).price === null;
  return html`
    <li data-made=${line.made} data-good=${line.good}>
      <span>${name}<small>${line.quantity} strips${isNew ? ', a new product' : ''}</small></span>
      <span><small>Made</small><${Stepper} name=${`${name} made`} value=${line.made} set=${(made) => put({ made })} /></span>
      <span><small>Good</small><${Stepper} name=${`${name} good`} value=${line.good} most=${line.made} set=${(good) => put({ good })} /></span>
      ${
        asks &&
        html`<label class="field">Price of one
        <span class="control"><input name="price" inputmode="decimal" autocomplete="off" value=${line.price ?? ''} onInput=${({ target }) => put({ price: target.value })} /></span></label>`
      }
    </li>
  `;
}

function Result({ batch, result }) {
  const [reason, setReason] = useState('');
  const never = useOnce(() =>
    saying('Void: the strips wait again, and the batch is open', () => undoFinish({ result: result.id, batch: batch.id }, reason.trim())),
  );
  return html`
    <section class="plain" data-result=${result.id}>
      <h2>${dayInWords(result.day)}, to ${placeName(result.place)} <${KeptState} id=${result.id} /></h2>
      <ul class="lines">${result.lines.map(({ product, made, good }) => html`<li><span>${rowName({ product })}</span> <span class="number">${made} made, <strong>${good} good</strong></span></li>`)}</ul>
      <details class="more"><summary>Void this</summary>
        <label class="field" for=${`reason-${result.id}`}>Why</label>
        <span class="control"><input id=${`reason-${result.id}`} name="reason" maxlength="200" value=${reason} onInput=${({ target }) => setReason(target.value)} /></span>
        <p><button type="button" data-void onClick=${never}>Void what came of it</button></p>
      </details>
    </section>
  `;
}
