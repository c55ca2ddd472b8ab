/* A sample of a batch: how many to look at and which, a tap for each, and the verdict as soon as it is certain. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { aqlChoices, keepAql, keepSample, recordSample, sampleOf } from '../../data/batches.js';
import { batchInWords } from '../../data/naming.js';
import { answer } from '../../data/calculating.js';
import { recordById } from '../../data/records.js';
import { Choice } from '../parts/choice.js';
import { Figure, PAPER_WIDTH } from '../parts/drawing.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';

// what is found most: a word of her own beside them
const FAULTS = ['Seam open', 'Elastic slips', 'Wrong size', 'Stain or hole'];

export function Sample({ id }) {
  const batch = recordById('batch', id);
  const [sample, setSample] = useState(() => sampleOf(id));
  const lot = (batch?.lines ?? []).reduce((sum, { quantity }) => sum + quantity, 0);
  const { first, faults, aql } = sample;
  const told = useFollowed(
    async () => lot >= 2 && (await answer('sample-check', { lot, first, aql, inspected: faults.length, found: faults.filter(Boolean).length })),
    [lot, first, aql, faults.length],
  );
  if (!batch) return html`<${NoSuchScreen} />`;
  const change = (next) => {
    keepSample(id, next);
    setSample(next);
  };
  return html`
    <h1>${batchInWords(batch)}, a sample</h1>
    ${lot < 2 && html`<p class="lead">One piece: look at it.</p>`}
    ${faults.length > lot && lot >= 2 && html`<p class="lead">The batch has fewer pieces now than were looked at.</p><p><button type="button" data-anew onClick=${() => change({ first: 1, faults: [], aql })}>Begin the sample anew</button></p>`}
    ${told?.result && html`<${Look} batch=${batch} lot=${lot} result=${told.result} sample=${sample} change=${change} />`}
  `;
}

function Look({ batch, lot, result, sample, change }) {
  const { route } = useLocation();
  const [word, setWord] = useState('');
  const { faults } = sample;
  const bad = faults.filter(Boolean).length;
  const certain = result.verdict === 'accept' || result.verdict === 'reject';
  const piece = result.draw[faults.length];
  const tap = (fault) => {
    change({ ...sample, faults: [...faults, fault] });
    setWord('');
  };
  const back = () => change({ ...sample, faults: faults.slice(0, -1) });
  const record = useOnce(async () => {
    if (await saying('The sample is recorded', () => recordSample(batch.id, result, faults))) route(`/make/batches/${batch.id}/finished`);
  });
  const counts = [...new Set(faults.filter(Boolean))].map((fault) => `${faults.filter((one) => one === fault).length} × ${fault}`);
  const other = html`
    <details class="more"><summary>Something else is wrong</summary>
        <form class="make-word" onSubmit=${(event) => {
          event.preventDefault();
          if (word.trim()) tap(word.trim());
        }}>
          <label class="field">What<span class="control"><input name="fault" maxlength="60" autocomplete="off" value=${word} onInput=${({ target }) => setWord(target.value)} /></span></label>
          <button type="submit" disabled=${!word.trim()}>Bad</button>
        </form>
    </details>`;
  return html`
    <p class="lead">Look at <strong>${result.sample} of ${lot}</strong>: ${result.accept ? `with ${result.accept} bad or fewer` : 'with none bad'} it is good enough, with ${result.reject} it is not.</p>
    ${
      certain
        ? html`<section class="verdict" data-allowed=${result.verdict === 'accept'} data-verdict=${result.verdict}>
        <p role="status">${result.verdict === 'accept' ? 'Good enough' : 'Not good enough'}: ${bad} bad in ${faults.length} looked at.</p>
        <p>${result.verdict === 'accept' ? 'Take out what you found bad; the rest can be sold as it is.' : 'Look at every piece of this batch before any of it is sold.'}</p>
        ${counts.length > 0 && html`<p>${counts.join(', ')}</p>`}</section>`
        : html`<p class="make-piece" data-piece=${piece}><span>Piece number</span> <strong class="number">${piece}</strong></p>
        <p role="status">${faults.length} looked at, ${bad} bad.</p>`
    }
    ${!certain && counts.length > 0 && html`<p>${counts.join(', ')}</p>`}
    ${!certain && other}
    <${Which} result=${result} sample=${sample} change=${change} />
    <${Strict} result=${result} sample=${sample} change=${change} />
    <${Curve} result=${result} />
    <div class="dock">
      ${
        certain
          ? html`<div class="next-steps"><button type="button" data-back onClick=${back}>Back</button><button type="button" class="main" data-record onClick=${record}>Record the sample</button></div>`
          : html`
        <button type="button" class="main make-lap" data-good onClick=${() => tap('')}>Good</button>
        <div class="next-steps">${FAULTS.map((fault) => html`<button type="button" data-fault=${fault} onClick=${() => tap(fault)}>${fault}</button>`)}
          ${faults.length > 0 && html`<button type="button" data-back onClick=${back}>Back</button>`}</div>`
      }
    </div>
  `;
}

function Which({ result, sample, change }) {
  const { distance: each } = result;
  const other = () => change({ ...sample, first: (sample.first % each) + 1 });
  return html`
    <details class="more"><summary>Which ones</summary>
      <p>${each > 1 ? `One piece in ${each}, from piece ${result.draw[0]}, as they lie:` : 'Every piece:'} <span class="number">${result.draw.join(', ')}</span>.</p>
      ${each > 1 && !sample.faults.length && html`<p><button type="button" data-first onClick=${other}>Begin with another</button></p>`}
    </details>
  `;
}

const STRICT = { 1: 'Very strict', 1.5: 'Strict', 2.5: 'Usual', 4: 'Lenient', 6.5: 'Very lenient' };
const FAR = 10;

// what may pass is chosen before the first piece is looked at: another share asks for other pieces
function Strict({ result: { sample: size, accept, at_aql: passes, curve }, sample, change }) {
  const { aql, faults } = sample;
  const set = (chosen) => {
    keepAql(Number(chosen));
    change({ ...sample, aql: Number(chosen) });
  };
  const far = curve.find(({ bad }) => bad === FAR);
  return html`
    <details class="more" data-aql=${aql}><summary>How strict: ${STRICT[aql].toLowerCase()}</summary>
      ${
        faults.length
          ? html`<p class="hint">It is chosen before the first piece is looked at. Go back to the first to choose again.</p>`
          : html`<${Choice} id="aql" name="aql" label="Bad pieces that may pass" value=${String(aql)} set=${set} choices=${aqlChoices().map((share) => [String(share), `${STRICT[share]}: ${share} in 100`])} />`
      }
      <p>You look at ${size}, and ${accept ? `${accept} may be bad` : 'none may be bad'}. Of 100 batches with ${aql} bad in 100, about ${Math.round(passes)} pass; of 100 with ${FAR} bad in 100, about ${Math.round(far.long_run)}. A stricter choice looks at more pieces, and lets fewer bad batches pass.</p>
    </details>
  `;
}

const HEIGHT = 150;
const LEFT = 34;

// the chance that a batch passes by how many of it are bad; the table says the same
function Curve({ result: { curve } }) {
  const most = curve.at(-1).bad;
  const x = (bad) => LEFT + ((PAPER_WIDTH - LEFT) * bad) / most;
  const y = (chance) => 8 + ((HEIGHT - 30) * (100 - chance)) / 100;
  const line = curve.map(({ bad, lot }, index) => `${index ? 'L' : 'M'}${x(bad).toFixed(1)} ${y(lot).toFixed(1)}`).join('');
  const told = [0, 5, 10, 15, 20, 25].map((bad) => curve.find((point) => point.bad === bad)).filter(Boolean);
  const words = (chance) => `${Math.round(chance)} in 100`;
  return html`
    <details class="more"><summary>How sure this is</summary>
      <${Figure} title="Chance that a batch passes, by the share of bad pieces in it" height=${HEIGHT} caption="Across: bad pieces in 100. Up: how many of 100 such batches pass.">
        <path class="make-axis" d=${`M${LEFT} 8V${HEIGHT - 22}H${PAPER_WIDTH}`} />
        <path class="make-curve" d=${line} />
        ${[0, 50, 100].map((chance) => html`<text x=${LEFT - 5} y=${y(chance) + 4} text-anchor="end">${chance}</text>`)}
        ${[5, 10, 15, 20, 25].filter((bad) => bad <= most).map((bad) => html`<text x=${x(bad)} y=${HEIGHT - 6} text-anchor=${bad === most ? 'end' : 'middle'}>${bad}</text>`)}
      <//>
      <dl class="facts">${told.map(({ bad, lot }) => html`<div><dt>${bad} bad in 100</dt><dd>passes ${words(lot)}</dd></div>`)}</dl>
    </details>
  `;
}
