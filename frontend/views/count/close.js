/* Before a count is closed: what differs, what was sold meanwhile, what to count again. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { closeCount, closing, keepClosing, keepCount, openCount, resultOf, turnInWords } from '../../data/counts.js';
import { timeInWords } from '../../data/naming.js';
import { keepTyped } from '../../data/typed-lines.js';
import { NotHeard, useNotHeard } from '../parts/not-heard.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowing } from '../parts/use-records.js';
import { Difference, Totals } from './closed.js';
import { inOrder, keyOf, placeInWords, thingInWords } from './things.js';

export function CloseCount() {
  const [count] = useState(openCount);
  if (!count) return html`<h1>Close</h1><p class="lead">No count is open on this phone. <a href="/count">Count</a></p>`;
  return html`<${Closing} count=${count} />`;
}

function Closing({ count }) {
  const { route } = useLocation();
  const [said, setSaid] = useState(() => closing(count));
  const [result, isOfNow] = useResult(count, said);
  const phones = useNotHeard();
  useEffect(() => {
    keepTyped(count);
  }, []);
  const change = (more) => {
    const next = { ...said, ...more };
    keepClosing(next);
    setSaid(next);
  };
  const again = Object.keys(said.again).filter((key) => said.again[key]);
  const close = useOnce(() =>
    saying('The count is closed', async () => {
      await keepTyped(count);
      const id = await closeCount(count, { ...closeOf(said, result.rows), listed: result.listed });
      route(`/count/closed/${id}`, true);
    }),
  );
  const countAgain = async (only) => {
    await keepCount({ ...count, only });
    change({ again: {} });
    route('/count');
  };
  return html`
    <h1>Check and close</h1>
    <p class="lead">${turnInWords(count.which)}, ${placeInWords(count.place)}</p>
    <fieldset class="count-scope">
      <legend>What was looked for</legend>
      ${SCOPES.map(
        ({ scope, words, more }) => html`
        <label class="tick"><input type="radio" name="scope" value=${scope} checked=${said.scope === scope} onChange=${() => change({ scope })} />
          <span><strong>${words}</strong><small>${more}</small></span></label>
      `,
      )}
    </fieldset>
    ${result ? html`<${Rows} rows=${result.rows} said=${said} change=${change} countAgain=${countAgain} />` : html`<p class="lead" role="status">Working it out …</p>`}
    ${result?.rows.some((row) => row.difference) && html`<${NotHeard} phones=${phones} />`}
    ${result && html`<${Totals} result=${result} />`}
    <div class="dock next-steps">
      ${again.length > 0 && html`<button type="button" data-again onClick=${() => countAgain(again)}>Count ${again.length} again</button>`}
      <button type="button" class="main" data-close disabled=${!isOfNow} onClick=${close}>Close the count</button>
    </div>
  `;
}

const SCOPES = [
  { scope: 'all', words: 'Everything here', more: 'Anything not counted becomes 0' },
  { scope: 'list', words: 'Only what was counted', more: 'Everything else keeps its figure' },
];

function Rows({ rows, said, change, countAgain }) {
  const open = inOrder(rows).filter((row) => row.difference || (row.meanwhile.length && !row.first));
  const unseen = rows.filter((row) => !row.seen);
  const firsts = rows.filter((row) => row.first).length;
  const right = rows.filter((row) => !row.first && !row.difference && !row.meanwhile.length).length;
  return html`
    ${
      unseen.length > 0 &&
      html`
      <div class="verdict" data-allowed="false" data-unseen=${unseen.length}>
        <p>${unseen.length === 1 ? 'One thing that should be here was' : `${unseen.length} things that should be here were`} not counted: closing everything makes that 0.</p>
        <button type="button" onClick=${() => countAgain(unseen.map(keyOf))}>Count ${unseen.length === 1 ? 'it' : 'them'}</button>
      </div>`
    }
    <ul class="count-differences">
      ${open.map((row) => html`<${Row} key=${keyOf(row)} row=${row} said=${said} change=${change} />`)}
    </ul>
    ${firsts > 0 && html`<p class="hint" data-first=${firsts}>${firsts === 1 ? 'One thing is' : `${firsts} things are`} counted here for the first time: taken into the books.</p>`}
    <p class="hint" data-right=${right}>${agreeInWords(right, rows.length - firsts, firsts)}</p>
  `;
}

function agreeInWords(right, known, firsts) {
  if (known) return `${right} of ${known} agree with the books.`;
  return firsts ? '' : 'Nothing has been counted yet. Count what you see, then close.';
}

function Row({ row, said, change }) {
  const key = keyOf(row);
  const put = (part, value) => change({ [part]: { ...said[part], [key]: value } });
  return html`
    <${Difference} row=${row}>
      ${row.meanwhile.length > 0 && html`<${Meanwhile} row=${row} answer=${said.answers[key]} set=${(out) => put('answers', out)} />`}
      ${
        row.difference !== 0 &&
        html`
        <div class="count-why-not">
          <div class="field">
            <label for=${`why-${key}`}>Why</label>
            <span class="control"><input id=${`why-${key}`} maxlength="200" autocomplete="off" value=${said.reasons[key] ?? ''} onInput=${({ target }) => put('reasons', target.value)} /></span>
          </div>
          <label class="tick"><input type="checkbox" checked=${said.again[key] ?? false} onChange=${({ target }) => put('again', target.checked)} /> <span>Count again</span></label>
        </div>
      `
      }
    <//>
  `;
}

// sales between the first and the last line of a product, and what came back in a swap
function Meanwhile({ row, answer, set }) {
  const pieces = row.meanwhile.reduce((sum, sale) => sum + sale.quantity, 0);
  const times = [...new Set(row.meanwhile.map((sale) => timeInWords(sale.at)))].join(', ');
  const [what, then, otherwise] = pieces > 0 ? ['sold', 'already out', 'Still on the table'] : ['came back', 'already there', 'Not there yet'];
  if (!pieces) return null;
  return html`
    <div class="count-meanwhile" role="group" aria-label=${`What ${what} of ${thingInWords(row)} while it was counted`} data-meanwhile=${pieces}>
      <p>${Math.abs(pieces)} ${what} at ${times}, while it was counted. ${upper(then)} when counted?</p>
      <div class="next-steps">
        <button type="button" class="chip" aria-pressed=${answer === true} onClick=${() => set(true)}>${upper(then)}</button>
        <button type="button" class="chip" aria-pressed=${answer === false} onClick=${() => set(false)}>${otherwise}</button>
      </div>
      ${answer === undefined && html`<p class="hint">No answer counts as ${then}.</p>`}
    </div>
  `;
}

const upper = (text) => text[0].toUpperCase() + text.slice(1);

// what the close is going to say; what was sold meanwhile is known from an answer before
function closeOf({ scope, answers, reasons }, rows = []) {
  const goods = ({ product, size }) => ({ product, size });
  return {
    scope,
    answers: rows
      .filter((row) => keyOf(row) in answers)
      .flatMap((row) => row.meanwhile.map(({ sale }) => ({ sale, ...goods(row), already_out: answers[keyOf(row)] }))),
    reasons: rows
      .filter((row) => row.difference && reasons[keyOf(row)]?.trim())
      .map((row) => ({ ...goods(row), reason: reasons[keyOf(row)].trim() })),
  };
}

// each answer changes it
function useResult(count, { scope, answers }) {
  return useFollowing(async () => {
    const before = await resultOf(count, closeOf({ scope, answers: {}, reasons: {} }));
    const close = closeOf({ scope, answers, reasons: {} }, before.rows);
    return close.answers.length ? resultOf(count, close) : before;
  }, [scope, JSON.stringify(answers)]);
}
