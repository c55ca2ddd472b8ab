/* A closed count: how it came out, who counted what, and counting again. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { today } from '../../data/clock.js';
import { beginCount, countsOfDay, phoneInWords, resultOf, soFar, turnInWords, turnOf } from '../../data/counts.js';
import { factById } from '../../data/facts.js';
import { dayInWords, nameOf, timeInWords } from '../../data/naming.js';
import { onRecords, recordById } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { say } from '../parts/notice.js';
import { Difference, Totals } from './differences.js';
import { inOrder, keyOf, linesInWords, piecesInWords } from './things.js';

export function ClosedCount({ id }) {
  const { route } = useLocation();
  const told = useClosed(id);
  if (!told) return html`<h1>Count</h1><p class="lead" role="status">Working it out …</p>`;
  const { close, which, result, counted } = told;
  if (!close) return html`<h1>Count</h1><p class="lead">There is no such count on this phone.</p>`;
  const differing = inOrder(result.rows).filter((row) => row.difference || row.reason);
  const again = async () => {
    const next = (await countsOfDay(close.place)).find((count) => !count.close && /^\d/.test(count.which));
    await beginCount(close.place, next.which);
    route('/count');
  };
  return html`
    <h1>${which ? turnInWords(which) : 'Count'}</h1>
    <p class="lead">${nameOf('place', recordById('place', close.place))}, ${dayInWords(close.day)}, closed at ${timeInWords(close.at)} <${KeptState} id=${id} /></p>
    <${Totals} result=${result} />
    <ul class="differences" data-differences=${differing.length}>
      ${differing.map((row) => html`<${Difference} key=${keyOf(row)} row=${row}>${row.reason && html`<p>${row.reason}</p>`}<//>`)}
    </ul>
    ${!differing.length && html`<p class="lead">All of it agrees with the books.</p>`}
    <section class="plain">
      <h2>Counted by</h2>
      <ul class="lines">${counted.phones.map(({ phone, lines, pieces }) => html`
        <li data-phone=${phone}><span>${phoneInWords(phone)}</span> <span class="number">${linesInWords(lines)}, ${piecesInWords(pieces)}</span></li>`)}</ul>
      ${counted.late > 0 && html`<p class="hint" data-late=${counted.late}>${linesInWords(counted.late)} came after the close, and joined it.</p>`}
    </section>
    ${close.day === today() && html`<p class="hint">A closed count stays as it is. A mistake is answered by counting again: what is counted last holds.</p>
      <p><button type="button" data-count-again onClick=${again}>Count ${nameOf('place', recordById('place', close.place))} again</button></p>`}
  `;
}

function useClosed(id) {
  const [told, setTold] = useState(null);
  useEffect(() => {
    const read = async () => {
      const close = await factById(id);
      if (!close) return setTold({});
      const [which, result, counted] = await Promise.all([turnOf(close), resultOf(close, {}, close.at), soFar(close)]);
      return setTold({ close, which, result, counted });
    };
    const tried = () => read().catch((error) => say(error.message, { bad: true }));
    tried();
    return onRecords(tried);
  }, [id]);
  return told;
}
