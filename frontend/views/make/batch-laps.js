/* The laps of a batch: each can be undone, or marked as disturbed. */
import { html } from 'htm/preact';
import { clockInWords, markLap, undoLap } from '../../data/laps.js';
import { nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { saying, useOnce } from '../parts/notice.js';

/** What was done: the last lap at hand, the others behind it. */
export function Laps({ batch, laps, again }) {
  if (!laps.length) return null;
  const line = (lap) => html`<${Lap} key=${lap.id} batch=${batch} lap=${lap} again=${again} />`;
  return html`
    <section class="plain no-print" data-laps=${laps.length}>
      <h2>Last lap</h2>
      <ul class="lines">${line(laps[0])}</ul>
      ${laps.length > 1 && html`<details class="more"><summary>Laps before (${laps.length - 1})</summary><ul class="lines">${laps.slice(1).map(line)}</ul></details>`}
    </section>
  `;
}

function Lap({ batch, lap, again }) {
  const act = (words, action) =>
    useOnce(async () => {
      await saying(words, action);
      again();
    });
  const undo = act('Undone: the lap goes on', () => undoLap(batch.id, lap));
  const mark = act(lap.disturbed ? 'It counts again' : 'Left out of the times', () => markLap(batch.id, lap, !lap.disturbed));
  const who = nameOf('person', recordById('person', lap.person));
  return html`
    <li data-lap-of=${lap.step}>
      <span>${lap.pieces} in <strong class="number">${clockInWords(lap.took_ms)}</strong><small>${[lap.step, who, lap.disturbed && 'disturbed'].filter(Boolean).join(', ')}</small></span>
      <span class="make-lap-ways"><button type="button" data-mark aria-pressed=${lap.disturbed} onClick=${mark}>Disturbed</button>
      <button type="button" data-undo onClick=${undo}>Undo</button></span>
    </li>
  `;
}
