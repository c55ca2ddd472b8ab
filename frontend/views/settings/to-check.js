/* What is to be checked: changes that the server would not take, records that cannot be read, and what helpers
   undid, gave back or claim beyond what is usual. */
import { useEffect, useReducer } from 'preact/hooks';
import { html } from 'htm/preact';
import { letGo, putBack } from '../../data/actions.js';
import { momentInWords, nameOf } from '../../data/naming.js';
import { phoneInWords } from '../../data/counts.js';
import { findRight, leaveOut, toLookAt } from '../../data/looked-at.js';
import { askWhoWasHeard } from '../../data/phones.js';
import { isHelper, toCheck } from '../../data/records.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed, useRecords } from '../parts/use-records.js';

export function ToCheck() {
  useRecords();
  const found = toCheck();
  const { aside = [], doubtful = [] } = useFollowed(toLookAt, []) ?? {};
  const [, again] = useReducer((count) => count + 1, 0);
  const others = aside.length + doubtful.length > 0;
  // what phones are called is the server's to tell; without a network they are the other phones
  useEffect(() => {
    if (others) askWhoWasHeard().then(again, () => {});
  }, [others]);
  if (!found.length && !aside.length && !doubtful.length) return null;
  return html`
    <section class="plain" id="check">
      <h2>To check</h2>
      ${found.length > 0 && html`<${Refused} found=${found} />`}
      ${doubtful.length > 0 && html`<${Doubtful} rows=${doubtful} />`}
      ${aside.length > 0 && html`<${Aside} rows=${aside} />`}
    </section>
  `;
}

function Refused({ found }) {
  return html`
      <p class="hint">The server did not take these. Correct or discard them; until then they do not count.</p>
      <ul class="lines">
        ${found.map(
          (change) => html`
          <li key=${change.id} data-to-check=${change.id}>
            <span><strong>${titleOf(change)}</strong> <small>${reasonsOf(change)}</small></span>
            <a class="button" href=${`/settings/check/${change.id}`}>Correct</a>
            <button type="button" class="quiet" onClick=${() =>
              saying(
                'Discarded',
                () => letGo(change.id),
                () => putBack(change),
              )}>Discard</button>
          </li>
        `,
        )}
      </ul>
  `;
}

function Doubtful({ rows }) {
  return html`
    <h3>Recorded by helpers</h3>
    <p class="hint">These are recorded and count. Say what is right, and it is listed no more; void what is wrong, and it counts for nothing, on every phone.</p>
    <ul class="lines">${rows.map((row) => html`<${Doubt} key=${row.id} row=${row} />`)}</ul>
  `;
}

function Doubt({ row }) {
  const { id, kind, of, batch, amount, doubt } = row;
  const what = `${kindInWords(kind)}${amount === null ? '' : ` of ${showMoney(amount)}`}`;
  const never = useOnce(() => saying(`${what}: void`, () => leaveOut(id, DOUBTS[doubt](row))));
  const right = useOnce(() =>
    saying(
      `${what}: right`,
      () => findRight(id),
      (found) => leaveOut(found, 'tapped by mistake'),
    ),
  );
  const said = html`<span><strong>${what}</strong> <small>${whenInWords(row)}. ${DOUBTS[doubt](row)}${of ? `: ${momentInWords(of.at)}` : ''}.</small></span>`;
  const about = of?.kind === 'sale' ? `/sell/sale/${of.id}` : batch && `/make/batches/${batch}`;
  return html`
    <li data-doubt=${doubt} data-fact=${id}>
      ${about ? html`<a class="to-record" href=${about}>${said}</a>` : said}
      <button type="button" onClick=${right}>It is right</button>
      <button type="button" onClick=${never}>Void</button>
    </li>
  `;
}

const DOUBTS = {
  late: () => 'Long after what it voids',
  sale_unknown: () => 'Its sale is not on this phone',
  beyond_sale: () => 'More than was left of its sale',
  no_sale: () => 'Without a sale, and more than two of the dearest cost',
  beyond_batch: ({ given, limit }) => `With it ${given} pieces are made of a batch of ${limit}`,
  beyond_day: ({ given, limit }) => `With it ${hours(given)} h of work by one person on one day: more than ${hours(limit)} h`,
};
const hours = (minutes) => (minutes / 60).toLocaleString(undefined, { maximumFractionDigits: 1 });

function Aside({ rows }) {
  return html`
    <h3>Cannot be fully read</h3>
    <p class="hint">${
      isHelper()
        ? 'Figures may lack these records. An owner can leave them out for good.'
        : 'Figures may lack these records. If the newest version of Boltfair cannot read them either, leave them out: they then count for nothing, on every phone.'
    }</p>
    <ul class="lines">${rows.map((row) => html`<${Unread} key=${row.id} row=${row} />`)}</ul>
  `;
}

function Unread({ row }) {
  const { id, kind, fields } = row;
  const leave = useOnce(() => saying('Left out for good', () => leaveOut(id, 'could not be read')));
  return html`
    <li data-unread=${id}>
      <span><strong>${kindInWords(kind)}</strong> <small>${whenInWords(row)}. What is wrong: ${fields.join(', ').replaceAll('_', ' ')}.</small></span>
      ${!isHelper() && html`<button type="button" onClick=${leave}>Leave it out</button>`}
    </li>
  `;
}

const kindInWords = (kind) => {
  const words = kind.replaceAll('-', ' ');
  return words[0].toUpperCase() + words.slice(1);
};
const whenInWords = (row) => `${phoneInWords(row.phone)}, ${momentInWords(row.at)}`;

/** What a change is called: its record's name, or its kind and when it was. */
export function titleOf({ kind, record, fields, at }) {
  const name = record && nameOf(kind, fields);
  return name || `${kind.replaceAll('-', ' ')}, ${momentInWords(at)}`;
}

/** Why a change was not taken, in the server's words. */
export function reasonsOf({ trouble }) {
  return Object.entries(trouble)
    .map(([field, messages]) => `${field.replaceAll(/[._]/g, ' ')} ${messages.join(', ')}`.trim())
    .join('; ');
}
