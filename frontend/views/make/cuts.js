/* All that was cut, month by month, the latest first. */
import { html } from 'htm/preact';
import { cutsMade } from '../../data/cuts.js';
import { dayInWords } from '../../data/naming.js';
import { byMonth, Groups } from '../parts/groups.js';
import { KeptState } from '../parts/kept-state.js';
import { useFollowed } from '../parts/use-records.js';
import { cutOf, stripsInWords } from './cut-words.js';

export function Cuts() {
  const cuts = useFollowed(cutsMade, []);
  return html`
    <h1>What was cut</h1>
    ${cuts?.length === 0 && html`<p class="lead">Nothing yet. What is cut by a layout is listed here. <a href="/make/cutting">Say what to cut</a></p>`}
    <${Groups} groups=${byMonth(cuts ?? [], ({ day }) => day)} line=${line} />
  `;
}

const line = (cut) => html`
        <li key=${cut.id} data-cut=${cut.id}>
          <span><a class="to-record" href=${`/make/cuts/${cut.id}`}>${dayInWords(cut.day)}, ${cutOf(cut)}</a>
            <small>${cut.never ? 'taken back' : stripsInWords(cut.lines)}</small></span>
          <${KeptState} id=${cut.id} />
        </li>`;
