/* What I plan to sew: what to buy for all of it, what is used from home first, and the layout of each cloth. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { besideCalculator, clothToBuy, listFor, putListOn } from '../../data/buying.js';
import { lengthsInWords } from '../../data/calculating.js';
import { cutting, heightsInWords, keepCutting } from '../../data/cutting.js';
import { boughtInWords } from '../../data/elastic.js';
import { mayAdd, recordById, records } from '../../data/records.js';
import { ElasticCuts } from '../parts/elastic.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { Missing, Proof } from '../parts/proof.js';
import { useRecords } from '../parts/use-records.js';
import { useSearch } from '../parts/use-search.js';
import { useLengths, useWords } from '../parts/use-words.js';
import { AddWanted, NothingSaved, Wanted } from '../parts/wanted.js';

export function Plan() {
  useRecords();
  const [plan, setPlan] = useState(cutting);
  const change = (next) => {
    keepCutting(next);
    setPlan(next);
  };
  if (!records('piece').length || !records('cloth').length) return html`<${NothingSaved} title="Plan" />`;
  return html`
    <h1>Plan</h1>
    <p class="lead">Say what you plan to sew: Buy and Make share it.</p>
    <div class="beside">
      <div>
        <${Wanted} plan=${plan} change=${change} title="To sew" />
        <${AddWanted} plan=${plan} change=${change} />
      </div>
      <div>${plan.wanted.length > 0 && html`<${ToBuy} plan=${plan} />`}</div>
    </div>
  `;
}

function ToBuy({ plan }) {
  const { route } = useLocation();
  const {
    told: list,
    problem,
    stop,
  } = useSearch((show, stopped) => listFor(plan, show, stopped), [JSON.stringify([plan.wanted, plan.ways, plan.leftOut, plan.stages])]);
  const put = useOnce(async () => {
    if (await saying('On the list', async () => (await putListOn(list)) ?? true)) route('/buy/list');
  });
  if (problem) return html`<p class="problem" role="alert">${problem}</p>`;
  if (!list) return html`<p class="lead" role="status">Working it out …</p>`;
  const { result } = list;
  const toBuy = result.cloths_to_buy.length + result.elastic_to_buy.length;
  const elasticAtHome = result.elastic.filter((pattern) => pattern.at_home);
  return html`
    <section class="plain" data-buys=${result.length_to_buy} data-cost=${result.cost} data-done=${list.done}>
      <h2>To buy</h2>
      ${toBuy === 0 && html`<p>Nothing: what is at home is enough.</p>`}
      ${result.cloths_to_buy.map((row) => html`<${Cloth} key=${row.cloth} row=${row} list=${list} />`)}
      ${result.elastic_to_buy.map((row) => html`<${Rolls} key=${row.roll} row=${row} list=${list} />`)}
      ${result.cost !== null && html`<p class="total">All of it <strong class="number">${showMoney(result.cost)}</strong></p>`}
      ${result.cost === null && html`<p class="hint">Something of it has no price, so what all of it costs is not known.</p>`}
    </section>
    ${
      result.cloths_at_home.length + elasticAtHome.length > 0 &&
      html`
      <section class="plain">
        <h2>From home first</h2>
        ${result.cloths_at_home.map((row) => html`<${Cloth} key=${row.cloth} row=${row} list=${list} />`)}
        ${elasticAtHome.map((pattern, index) => html`<${RollAtHome} key=${index} pattern=${pattern} list=${list} />`)}
      </section>
    `
    }
    <${Stops} list=${list} />
    <p class="hint" data-spare>${spareInWords(result.to_cut)}</p>
    <${Missing} layout=${list} />
    <${Proof} layout=${list} stop=${stop} />
    <div class="dock next-steps">
      <a class="button" href="/buy/plan/compare" data-compare>Compare cloths</a>
      ${mayAdd('list-line') && html`<button type="button" class="main" data-put disabled=${!toBuy} onClick=${put}>Put it on the list</button>`}
    </div>
  `;
}

function spareInWords(rows) {
  const sum = (name) => rows.reduce((total, row) => total + row[name], 0);
  return `${sum('quantity')} strips in all, ${sum('spare')} of them spare for what goes wrong.`;
}

function Cloth({ row, list }) {
  const laid = list.result.cloths[row.cloth];
  const length = row.length_to_buy ?? row.used_length;
  const words = useLengths([length], 'm');
  // drawn as it was put in words: a better one may be there already
  const drawn = useWords(async () => ({ laid, heights: await heightsInWords(laid) }), [JSON.stringify(laid)]);
  const [open, setOpen] = useState(false);
  return html`
    <div class="to-buy" data-cloth=${row.name}>
      <p><strong>${row.name}:</strong> <strong class="number">${row.length_to_buy === undefined ? `${words[0]} of it` : `ask for ${words[0]}`}</strong><br />
        ${row.pieces} strips${costInWords(row)}</p>
      ${row.length_to_buy !== undefined && html`<${Beside} row=${row} list=${list} />`}
      <details class="more" onToggle=${({ target }) => setOpen(target.open)}>
        <summary>Layout on ${row.name}</summary>
        ${
          open &&
          drawn &&
          html`<${LayoutDrawing} ...${drawn} given=${list.given.cloths[row.cloth]} title=${`${row.pieces} strips on ${row.name}, to scale`}
          caption="The cloth's length lies to the right." />`
        }
      </details>
    </div>
  `;
}

// the calculator knows one size in one cloth and no plan: where it says otherwise, why
function Beside({ row, list }) {
  const told = useWords(async () => {
    const beside = await besideCalculator(list, row);
    return beside && { ...beside, words: (await lengthsInWords([beside.alone], 'm'))[0] };
  }, [JSON.stringify([row, list.given.strips])]);
  if (!told) return null;
  return html`<p class="hint" data-beside=${told.alone}>${clothToBuy().title} says ${told.words}. What differs here: ${whyInWords(told)}.</p>`;
}

function whyInWords({ spare, elsewhere, sizes, torn, printed }) {
  const why = [
    spare && countInWords(spare, 'spare strip'),
    elsewhere && `${elsewhere} cut from what is at home`,
    sizes > 1 && `${sizes} sizes share the cloth`,
    torn && 'torn edges fray',
    printed && 'the last row takes its whole print repeat, too',
  ].filter(Boolean);
  return why.length ? why.join('; ') : 'how the rows lie';
}

const costInWords = ({ cost }) => (cost === undefined || cost === null ? '' : `, ${showMoney(cost)}`);
const elasticOf = ({ rolls }, roll) => recordById('elastic', rolls[roll].elastic).name;

function Rolls({ row, list }) {
  const words = useWords(() => boughtInWords(row.count, row.roll_length), [row.count, row.roll_length]);
  const name = elasticOf(list, row.roll);
  return html`<p class="to-buy" data-rolls=${row.count} data-of=${name}><strong>${name}:</strong> <strong class="number">${words || '…'}</strong>${costInWords(row)}</p>`;
}

function RollAtHome({ pattern: { roll, times, roll_length: length, left }, list }) {
  const words = useLengths([length - left, length], 'm');
  const name = elasticOf(list, roll);
  return html`<p class="to-buy" data-roll-at-home=${name}><strong>${name}:</strong> <strong class="number">${words[0]}</strong> of ${times > 1 ? `each of ${times} rolls` : 'a roll'} of ${words[1]}</p>`;
}

function Stops({ list }) {
  if (!list.rolls.length) return html`<${ElasticCuts} plan=${list} />`;
  return html`<details class="more"><summary>Where to set the stop for the elastic</summary><${ElasticCuts} plan=${list} /></details>`;
}
