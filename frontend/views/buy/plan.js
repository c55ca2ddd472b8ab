/* What I plan to sew: what to buy for all of it, what is used from home first, and the layout of each cloth. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { listFor, putListOn } from '../../data/buying.js';
import { lengthsInWords } from '../../data/calculating.js';
import { cutting, keepCutting } from '../../data/cutting.js';
import { records } from '../../data/records.js';
import { LayoutDrawing } from '../parts/layout-drawing.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { Missing, Proof } from '../parts/proof.js';
import { useRecords } from '../parts/use-records.js';
import { useSearch } from '../parts/use-search.js';
import { useWords } from '../parts/use-words.js';
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
    <${Wanted} plan=${plan} change=${change} title="To sew" />
    <${AddWanted} plan=${plan} change=${change} />
    ${plan.wanted.length > 0 && html`<${ToBuy} plan=${plan} />`}
  `;
}

function ToBuy({ plan }) {
  const { route } = useLocation();
  const { told: list, stop } = useSearch((show, stopped) => listFor(plan, show, stopped), [JSON.stringify([plan.wanted, plan.ways, plan.leftOut])]);
  const put = useOnce(async () => {
    if (await saying('On the list', async () => (await putListOn(list)) ?? true)) route('/buy/list');
  });
  if (!list) return html`<p class="lead" role="status">Working it out …</p>`;
  const { result } = list;
  return html`
    <section class="plain" data-buys=${result.length_to_buy} data-cost=${result.cost} data-done=${list.done}>
      <h2>To buy</h2>
      ${result.cloths_to_buy.length === 0 && html`<p>Nothing: the remnants at home are enough.</p>`}
      ${result.cloths_to_buy.map((row) => html`<${Cloth} key=${row.cloth} row=${row} list=${list} />`)}
      ${result.cost !== null && html`<p class="total">All of it <strong class="number">${showMoney(result.cost)}</strong></p>`}
      ${result.cost === null && html`<p class="hint">A cloth has no price, so what all of it costs is not known.</p>`}
    </section>
    ${result.cloths_at_home.length > 0 && html`
      <section class="plain">
        <h2>From home first</h2>
        ${result.cloths_at_home.map((row) => html`<${Cloth} key=${row.cloth} row=${row} list=${list} />`)}
      </section>
    `}
    <p class="hint" data-spare>${spareInWords(result.to_cut)}</p>
    <${Missing} layout=${list} />
    <${Proof} layout=${list} stop=${stop} />
    <div class="dock next-steps">
      <a class="button" href="/buy/plan/compare" data-compare>Compare cloths</a>
      <button type="button" class="main" data-put disabled=${!result.cloths_to_buy.length} onClick=${put}>Put it on the list</button>
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
  const words = useWords(() => lengthsInWords([length], 'cm'), [length]);
  const [open, setOpen] = useState(false);
  const cost = row.cost === undefined || row.cost === null ? '' : `, ${showMoney(row.cost)}`;
  return html`
    <div class="to-buy" data-cloth=${row.name}>
      <p><strong>${row.name}</strong> <strong class="number">${row.length_to_buy === undefined ? `${words[0]} of it` : `ask for ${words[0]}`}</strong><br />
        ${row.pieces} strips${cost}</p>
      <details class="more" onToggle=${({ target }) => setOpen(target.open)}>
        <summary>Layout on ${row.name}</summary>
        ${open && html`<${LayoutDrawing} laid=${laid} given=${list.given.cloths[row.cloth]} title=${`${row.pieces} strips on ${row.name}, to scale`}
          caption="The cloth's length lies to the right." />`}
      </details>
    </div>
  `;
}
