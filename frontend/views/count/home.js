/* Count opens on the open count; before that, on the question what is counted, and where. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { beginCount, countsOfDay, keepCount, lastPlace, openCount, turnInWords, turns } from '../../data/counts.js';
import { countInWords, dayInWords, timeInWords } from '../../data/naming.js';
import { records } from '../../data/records.js';
import { todaysPlace } from '../../data/till.js';
import { byMonth, Groups } from '../parts/groups.js';
import { ClockOff } from '../parts/notice.js';
import { useFacts, useFollowed, useRecords } from '../parts/use-records.js';
import { Missing } from '../parts/way-back.js';
import { Counting } from './counting.js';
import { PlaceChoice, placeInWords, Ways } from './things.js';

export function CountHome() {
  useRecords();
  const [count, setCount] = useState(openCount);
  const change = (next) => {
    keepCount(next);
    setCount(next);
  };
  if (count) return html`<${Counting} key=${count.session} count=${count} change=${change} />`;
  return html`<${Opening} begin=${async (place, which) => setCount(await beginCount(place, which))} />`;
}

function Opening({ begin }) {
  const [place, setPlace] = useState(firstPlace);
  const missing = MISSING.find(({ kind }) => !records(kind).length);
  if (missing) {
    return html`<h1>Count</h1><${Missing} ...${missing} />`;
  }
  return html`
    <h1>Count</h1>
    <${ClockOff} />
    <${PlaceChoice} id="count-place" label="Where" value=${place} set=${setPlace} />
    <${Turns} key=${place} place=${place} begin=${begin} />
    <${Ways} />
    <${Earlier} />
  `;
}

const MISSING = [
  { kind: 'place', says: 'There is no place yet. Say where your stock is: a shelf at home, a stall.', does: 'Add a place' },
  { kind: 'product', says: 'There is nothing to count yet. Say what you sell.', does: 'Say what you sell', path: '/sell/goods' },
];

// today's stall comes first, then where the last count was
function firstPlace() {
  const known = records('place').map(({ id }) => id);
  return [todaysPlace(), lastPlace()].find((id) => known.includes(id)) ?? known[0];
}

function Turns({ place, begin }) {
  const counts = useFollowed(() => countsOfDay(place), []);
  // the place of the buttons is kept, so that nothing moves when it is known how they stand
  const shown = counts ?? [];
  const next = turns()[shown.findLastIndex(({ which, close }) => close && turns().includes(which)) + 1];
  return html`
    <div class="count-turns" data-counts=${counts?.length ?? ''}>
      ${shown.map(({ which, lines, close }) =>
        close
          ? html`<a class="button" data-which=${which} href=${`/count/closed/${close}`}>${turnInWords(which)} <small>closed: see how it came out</small></a>`
          : html`<button type="button" class=${which === next ? 'main' : ''} data-which=${which} onClick=${() => begin(place, which)}>
            ${lines || turns().includes(which) ? turnInWords(which) : 'A further count'} ${lines > 0 && html`<small>begun, ${countInWords(lines, 'line')}</small>`}</button>`,
      )}
    </div>
  `;
}

function Earlier() {
  const closes = useFacts('count-close');
  if (!closes?.length) return null;
  return html`
    <details class="more">
      <summary>Earlier counts</summary>
      <${Groups} groups=${byMonth(closes, ({ day }) => day)} line=${closedLine} />
    </details>
  `;
}

const closedLine = (close) => html`
  <li key=${close.id}><a class="to-record" href=${`/count/closed/${close.id}`}>
    ${placeInWords(close.place)}, ${dayInWords(close.day)}, ${timeInWords(close.at)}</a></li>`;
