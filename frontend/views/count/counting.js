/* The open count, blind: box by box what is seen, large enough for one thumb. */
import { useEffect, useLayoutEffect, useReducer, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { deviceId } from '../../data/clock.js';
import { boxesAt, phoneInWords, rememberBoxes, soFar, turnInWords } from '../../data/counts.js';
import { countInWords, dayInWords, timeInWords } from '../../data/naming.js';
import { standing } from '../../data/sync.js';
import { dropLeft, forgetTold, keepLeft, onTyped, typedFor, typedIn, typeLine } from '../../data/typed-lines.js';
import { KeptState } from '../parts/kept-state.js';
import { ClockOff, saying } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed } from '../parts/use-records.js';
import { groupsOf, keyOf, placeInWords, thingInWords, useStockAt, Ways } from './things.js';

export function Counting({ count, change }) {
  const told = useSoFar(count);
  const here = useFirst(useStockAt(count.place));
  return html`
    <h1>${turnInWords(count.which)}</h1>
    <p class="lead">${placeInWords(count.place)}, ${dayInWords(count.day)}. Count what you see; what should be there is shown at the end.</p>
    <${ClockOff} />
    <${LeftOver} count=${count} />
    ${
      told?.closed_at &&
      html`<p class="verdict">Closed at ${timeInWords(told.closed_at)}. What you count now joins it, and is marked as late.
      <button type="button" onClick=${() => change(null)}>Leave this count</button></p>`
    }
    ${
      count.only &&
      html`<p class="mode" role="status"><span>Count these again</span>
      <button type="button" onClick=${() => change({ ...count, only: null })}>Show all</button></p>`
    }
    ${told && here && html`<${Things} count=${count} told=${told} here=${here} />`}
    <${SoFar} told=${told} />
    <${Ways} />
    <p><button type="button" class="quiet" onClick=${() => change(null)}>Leave this count open, choose another</button></p>
    <div class="dock">
      <${Box} count=${count} change=${change} boxes=${boxesOf(count, told)} />
      <a class="button main" href="/count/close" data-to-close>Check and close</a>
    </div>
  `;
}

function Things({ count, told, here }) {
  const lines = new Map(told.lines.filter((line) => line.box_label === count.box).map((line) => [keyOf(line), line]));
  const elsewhere = new Map();
  for (const line of told.lines.filter(({ box_label: box }) => box !== count.box)) {
    const key = keyOf(line);
    elsewhere.set(key, (elsewhere.get(key) ?? 0) + line.quantity);
  }
  const wanted = (thing) => (count.only ? count.only.includes(thing.key) : true);
  const groups = groupsOf((key) => here.has(key)).map((group) => ({ ...group, things: group.things.filter(wanted) }));
  const known = groups.some(({ things }) => things.some((thing) => thing.here));
  const first = (thing) => count.only || !known || thing.here || lines.has(thing.key) || elsewhere.has(thing.key);
  const list = (isShown) => groups.map(({ name, things }) => html`<${Group} key=${name} name=${name} things=${things.filter(isShown)} row=${row} />`);
  const row = (thing) =>
    html`<${Line} key=${thing.key} count=${count} thing=${thing} line=${lines.get(thing.key)} elsewhere=${elsewhere.get(thing.key)} />`;
  const others = groups.flatMap(({ things }) => things.filter((thing) => !first(thing))).length;
  return html`
    ${list(first)}
    ${others > 0 && html`<details class="more"><summary>What was never here (${others})</summary>${list((thing) => !first(thing))}</details>`}
  `;
}

function Group({ name, things, row }) {
  if (!things.length) return null;
  return html`<section class="counts"><h2>${name}</h2><ul class="lines">${things.map(row)}</ul></section>`;
}

function Line({ count, thing, line, elsewhere }) {
  const typed = typedFor(count, count.box, thing);
  const value = typed && !typed.left ? typed.quantity : line?.quantity;
  return html`
    <li data-thing=${thing.key} data-counted=${value ?? ''}>
      <span>${thing.name}${elsewhere > 0 && html`<small>${elsewhere} in other boxes</small>`}</span>
      ${typed && !typed.fact ? html`<span class="kept" data-typing>${typed.left ? 'not recorded' : 'recording'}</span>` : (typed ?? line) && html`<${KeptState} id=${(typed ?? line).fact} />`}
      <${Stepper} name=${thing.full} value=${value} set=${(quantity) => typeLine(count, count.box, thing, quantity)} />
    </li>
  `;
}

// what a killed app had not kept: whether it is still so, only who counted can tell
function LeftOver({ count }) {
  const left = typedIn(count).filter((line) => line.left);
  if (!left.length) return null;
  const what = left.map(({ box, thing, quantity }) => `${quantity} × ${thing.full}${box && ` in ${box}`}`).join(', ');
  return html`
    <div class="verdict" role="status" data-left=${left.length}>
      <p>Tapped, but not recorded before the app was closed: ${what}.</p>
      <div class="next-steps">
        <button type="button" onClick=${() => saying('Recorded', () => keepLeft(count))}>Record it</button>
        <button type="button" onClick=${() => dropLeft(count)}>Drop it</button>
      </div>
    </div>
  `;
}

const ANOTHER = '\n';

function Box({ count, change, boxes }) {
  const [naming, setNaming] = useState(null);
  const input = useRef();
  const select = useRef();
  const was = useRef(naming);
  useLayoutEffect(() => {
    // to where a name is typed, and back to the choice
    if (was.current !== naming) (input.current ?? select.current)?.focus();
    was.current = naming;
  }, [naming !== null]);
  const use = (event) => {
    event.preventDefault();
    const box = naming.trim();
    rememberBoxes(count.place, [...new Set([...boxes, box])].filter(Boolean));
    setNaming(null);
    change({ ...count, box });
  };
  if (naming !== null) {
    return html`
      <form class="count-box" onSubmit=${use}>
        <label for="box-name">Box or tray</label>
        <span class="control"><input id="box-name" maxlength="40" autocomplete="off" ref=${input} value=${naming} onInput=${(event) => setNaming(event.target.value)} /></span>
        <span class="next-steps"><button type="submit" disabled=${!naming.trim()}>Use it</button>
          <button type="button" onClick=${() => setNaming(null)}>Cancel</button></span>
      </form>
    `;
  }
  const choose = ({ target }) => (target.value === ANOTHER ? setNaming('') : change({ ...count, box: target.value }));
  return html`
    <div class="count-box">
      <label for="box">Box or tray</label>
      <span class="control"><select id="box" ref=${select} onChange=${choose}>
        <option value="" selected=${!count.box}>no box</option>
        ${boxes.map((box) => html`<option value=${box} selected=${box === count.box}>${box}</option>`)}
        <option value=${ANOTHER}>another box …</option>
      </select></span>
    </div>
  `;
}

// boxes of this place that were used before, and those that are in this count
function boxesOf(count, told) {
  const used = (told?.lines ?? []).map((line) => line.box_label);
  return [...new Set([...boxesAt(count.place), ...used, count.box])].filter(Boolean);
}

function SoFar({ told }) {
  const others = told?.phones.filter(({ phone }) => phone !== deviceId()) ?? [];
  const boxes = [...new Set(told?.lines.map((line) => line.box_label))];
  const alone = standing().paired
    ? 'What other phones count comes here once they have a signal. The same box counted twice counts once: its last number holds.'
    : '';
  return html`
    <p class="hint" data-others=${others.length} role="status">
      ${others.length ? `Counted on ${others.map(({ phone, lines }) => `${phoneInWords(phone)}: ${countInWords(lines, 'line')}`).join('; ')}.` : alone}</p>
    ${
      told?.lines.length > 0 &&
      html`
      <details class="more">
        <summary>Seen so far: ${countInWords(told.lines.length, 'line')}, ${countInWords(told.pieces, 'piece')}</summary>
        ${boxes.map(
          (box) => html`
          <h3>${box || 'No box'}</h3>
          <ul class="lines">${told.lines
            .filter((line) => line.box_label === box)
            .map(
              (line) => html`
            <li><span>${thingInWords(line)}${line.phone !== deviceId() && html`<small>${phoneInWords(line.phone)}</small>`}</span> <span class="number">${line.quantity}</span></li>`,
            )}
          </ul>
        `,
        )}
      </details>
    `
    }
  `;
}

// what stands of the count, and what is being tapped
function useSoFar(count) {
  const [, again] = useReducer((number) => number + 1, 0);
  useEffect(() => onTyped(again), []);
  const told = useFollowed(() => soFar(count), [count.session]);
  // before the lines are drawn: what is told now holds, whatever was tapped before it
  if (told) forgetTold(told.facts);
  return told;
}

// rows stay where they are while somebody counts
function useFirst(value) {
  const [first, setFirst] = useState(null);
  useEffect(() => {
    if (value && !first) setFirst(value);
  }, [value]);
  return first;
}
