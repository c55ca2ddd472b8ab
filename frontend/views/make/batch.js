/* A batch at the machine: where it stands, the lap that runs, and one large button that ends it. It prints as its sheet. */
import { useEffect, useReducer, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { dropBatch, finishTime, isOpen, sewnInWords, standingOf } from '../../data/batches.js';
import { dayOf, today } from '../../data/clock.js';
import { beginLap, changeLap, clockInWords, dropLap, endLap, keepTray, lapNow, pauseLap, resumeLap, tick, trayNow } from '../../data/laps.js';
import { batchInWords, dayInWords, momentInWords, nameOf, timeInWords } from '../../data/naming.js';
import { recordById, records } from '../../data/records.js';
import { recall, remember } from '../../data/store/remembered.js';
import { Choice } from '../parts/choice.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying, useOnce } from '../parts/notice.js';
import { Stepper } from '../parts/stepper.js';
import { useFollowed, useRecords } from '../parts/use-records.js';
import { Laps } from './batch-laps.js';
import { BeforeSewing, Minded, useSafety } from './batch-safety.js';

export function Batch({ id }) {
  useRecords();
  const batch = recordById('batch', id);
  const standing = useFollowed(async () => batch && standingOf(batch), [JSON.stringify(batch)]);
  const [person, setPerson] = useState(() => recall('batch-person'));
  const safety = useSafety(nameOf('person', recordById('person', person)));
  const choose = (chosen) => {
    remember('batch-person', chosen || null);
    setPerson(chosen);
  };
  const who = html`<${Who} person=${person} set=${choose} />`;
  if (!batch) return html`<${NoSuchScreen} />`;
  const name = batchInWords(batch);
  if (!standing || !safety) return html`<h1>${name}</h1>`;
  if (batch.archived)
    return html`<h1>${name}</h1><p class="lead">${sewnInWords(batch)}: archived.</p><p><button type="button" onClick=${() => saying('It is open again', () => dropBatch(id, false))}>Open it again</button></p>`;
  if (!isOpen(batch))
    return html`<h1>${name}</h1><p class="lead">${sewnInWords(batch)}</p><p><a class="button main" href=${`/make/batches/${id}/finished`}>What came of it</a></p>`;
  return html`
    <h1>${name}</h1>
    <p class="lead">${sewnInWords(batch)}</p>
    ${
      safety.unsigned.length
        ? html`<${BeforeSewing} safety=${safety} who=${who} back=${`/make/batches/${id}`} />`
        : html`<${AtIt} batch=${batch} standing=${standing} safety=${safety} who=${who} />`
    }
  `;
}

const personNow = () => recordById('person', recall('batch-person'));

function Who({ person, set }) {
  const people = records('person');
  if (!people.length) return null;
  return html`<${Choice} id="batch-person" name="person" label="Who is at it" value=${person ?? ''} set=${set}
    choices=${[['', 'Not said'], ...people.map(({ id, name }) => [id, name])]} />`;
}

// how it is sewn; all of it stands on the printed sheet
function Sheet({ batch }) {
  const thread = (id) => nameOf('thread', recordById('thread', id));
  const facts = [
    ['Method', nameOf('method', recordById('method', batch.method)) || 'Usual steps'],
    ['Needle', thread(batch.needle)],
    ['Bobbin', thread(batch.bobbin) || (batch.needle && 'as the needle')],
    ['People', batch.people > 1 && batch.people],
    ['Needed by', dayInWords(batch.needed)],
  ].filter(([, said]) => said);
  return html`<dl class="facts">${facts.map(([what, said]) => html`<div><dt>${what}</dt><dd>${said}</dd></div>`)}</dl>`;
}

function AtIt({ batch, standing, safety, who }) {
  const [, again] = useReducer((count) => count + 1, 0);
  const lap = lapNow();
  const here = lap?.batch === batch.id ? lap : null;
  const chosen = recall(`step:${batch.id}`);
  const wanted = standing.steps.findIndex(({ name }) => name === (here?.step ?? chosen));
  const number = here ? wanted : wanted >= 0 && standing.steps[wanted].left !== 0 ? wanted : standing.next;
  const step = here && wanted < 0 ? besideIt(here) : standing.steps[number];
  const choose = async (name) => {
    await remember(`step:${batch.id}`, name);
    again();
  };
  return html`
    <${Laps} batch=${batch} laps=${standing.laps} again=${again} />
    <section class="plain">
      <h2>Where it stands</h2>
      <ol class="lines">${standing.steps.map(
        (row, index) => html`
        <li key=${row.name} data-step-of=${row.name} data-done=${row.done} data-at=${index === number || undefined}>
          <${Bar} row=${row} tray=${trayNow()} now=${here?.step === row.name ? here.pieces : 0} />
          ${
            index === number
              ? html`<strong>Now</strong>`
              : row.left === 0 && row.of !== null
                ? html`<strong>Done</strong>`
                : !here && html`<button type="button" class="quiet no-print" data-choose onClick=${() => choose(row.name)}>Do this</button>`
          }
        </li>`,
      )}</ol>
      ${standing.beside.map(({ name, done }) => html`<p key=${name} data-beside=${done}><small>${name}: ${done} done, before the way was changed.</small></p>`)}
      <${Ready} batch=${batch} standing=${standing} />
    </section>
    <${Sheet} batch=${batch} />
    <${Minded} safety=${safety} />
    <p class="next-steps no-print"><a class="button" href=${`/make/batches/${batch.id}/change`} data-change>Change this batch</a> <button type="button" onClick=${() => print()}>Print the sheet</button></p>
    <${Archive} batch=${batch} />
    ${!here && who}
    ${
      step
        ? html`<${Clock} key=${step.name} batch=${batch} step=${step} laps=${standing.laps.length} lap=${here} other=${lap && !here} again=${again} />`
        : html`<div class="dock next-steps">
      <a class="button" href=${`/make/batches/${batch.id}/sample`}>Look at a sample</a>
      <a class="button main" href=${`/make/batches/${batch.id}/finished`}>All sewn: finish it</a></div>`
    }
  `;
}

// a lap that runs at a step which the way no longer has is ended like any other
const besideIt = ({ step }) => ({ name: step, per: 'piece', of: null, done: 0, left: 0 });

const WIDTH = 300;

// a step as a row of trays, those done filled, the one at hand outlined; the numbers beside it say the same
function Bar({ row, tray, now }) {
  const of = row.of || Math.max(row.done, 1);
  const size = row.per === 'piece' ? tray : 1;
  const most = Math.ceil(of / size);
  const scale = WIDTH / of;
  const done = Math.min(row.done, of);
  const said = row.of === null ? `${row.done} times` : row.per === 'piece' ? `${row.done} of ${row.of}` : row.left ? 'not yet' : 'done';
  return html`
    <span><strong>${row.name}</strong> <span class="number">${said}</span>
      <svg class="make-trays" viewBox=${`0 0 ${WIDTH} 16`} preserveAspectRatio="none" aria-hidden="true">
        <rect class="make-left" width=${WIDTH} height="16" />
        <rect class="make-done" width=${done * scale} height="16" />
        ${most < 60 && Array.from({ length: most - 1 }, (_, index) => html`<path d=${`M${(index + 1) * size * scale} 0v16`} />`)}
        ${now > 0 && html`<rect class="make-now" x=${done * scale} width=${Math.min(now, of - done) * scale} height="16" />`}
      </svg></span>
  `;
}

function Archive({ batch }) {
  const { route } = useLocation();
  const away = useOnce(async () => {
    const done = await saying(
      `${batchInWords(batch)} is archived: its strips wait again`,
      async () => {
        await dropBatch(batch.id);
        return true;
      },
      () => dropBatch(batch.id, false),
    );
    if (done) route('/make');
  });
  return html`<p class="no-print"><button type="button" class="quiet" data-archive onClick=${away}>Archive this batch</button></p>`;
}

function Ready({ batch, standing }) {
  const told = useFollowed(() => finishTime(batch, standing), [JSON.stringify(standing)]);
  if (!told?.finish) return null;
  const when = dayOf(told.finish) === today() ? timeInWords(told.finish) : momentInWords(told.finish);
  return html`<p data-finish=${told.finish}>Ready about <strong class="number">${when}</strong>, breaks included: ${told.words}.</p>`;
}

function Clock({ batch, step, laps, lap, other, again }) {
  const [, beat] = useReducer((count) => count + 1, 0);
  const runs = Boolean(lap?.since);
  useEffect(() => {
    if (!runs) return undefined;
    const timer = setInterval(beat, 1000);
    return () => clearInterval(timer);
  }, [runs]);
  const each = step.per === 'piece';
  // what was typed last counts, whatever of it is on the screen yet
  const tray = () => (each ? Math.min(trayNow(), step.left || 1) : 1);
  const act = (action) =>
    useOnce(async () => {
      await saying('', action);
      again();
    });
  const begin = act(() => beginLap({ batch: batch.id, step: step.name, person: personNow()?.id ?? null, pieces: tray() }));
  // a second tap at once ends no lap: it is not yet known what the first one left
  const ended = useRef(null);
  useEffect(() => {
    ended.current = null;
  }, [laps]);
  // the lap as it stands; one that another window ended is not recorded again
  const ofLap = async (change) => {
    const now = lapNow();
    if (now?.batch === batch.id && now.step === step.name) await change(now);
  };
  const end = act(async () => {
    if (ended.current === laps) return;
    ended.current = laps;
    await ofLap((now) => endLap(now, each ? Math.min(trayNow(), Math.max(step.left - now.pieces, 0)) : 0)).catch((error) => {
      ended.current = null;
      throw error;
    });
  });
  const pause = act(() => ofLap(runs ? pauseLap : resumeLap));
  const disturbed = act(() => ofLap((now) => changeLap(now, { disturbed: !lap.disturbed })));
  const drop = useOnce(async () => {
    const lost = lapNow();
    const back = () => saying('The lap runs again', () => changeLap(lost, {})).then(again);
    await saying('The lap is discarded', dropLap, back);
    again();
  });
  const size = async (pieces) => {
    if (pieces < 1) return;
    const kept = lap ? ofLap((now) => changeLap(now, { pieces })) : keepTray(pieces);
    // the next tap begins from what this one said
    again();
    await kept;
  };
  if (other) return html`<${Elsewhere} again=${again} />`;
  const ms = lap ? tick() : 0;
  return html`
    <div class="dock make-clock" data-lap=${lap ? (runs ? 'runs' : 'paused') : 'none'} data-elapsed=${ms}>
      <p class="total"><span>${step.name}</span> ${lap && html`<strong class="number" role="timer">${clockInWords(ms)}</strong>`}</p>
      ${each && html`<p class="total"><small>Pieces in the tray</small> <${Stepper} name="pieces in the tray" value=${lap?.pieces ?? tray()} most=${Math.max(step.left, lap?.pieces ?? 1, 1)} set=${size} /></p>`}
      ${
        lap
          ? html`
        <button type="button" class="main make-lap" data-end onClick=${end}>${each ? 'Tray done' : 'Done'}</button>
        <div class="next-steps">
          <button type="button" data-pause onClick=${pause}>${runs ? 'Pause' : 'Go on'}</button>
          <button type="button" data-disturbed aria-pressed=${lap.disturbed} onClick=${disturbed}>${lap.disturbed ? 'Disturbed ✓' : 'Disturbed'}</button>
          <button type="button" data-drop onClick=${drop}>Discard</button>
        </div>`
          : html`<button type="button" class="main make-lap" data-begin onClick=${begin}>Start the ${each ? 'tray' : 'clock'}</button>`
      }
    </div>
  `;
}

// one lap runs on a phone: another batch's comes first, unless that is over
function Elsewhere({ again }) {
  const { batch: id } = lapNow();
  const batch = recordById('batch', id);
  const drop = useOnce(async () => {
    await dropLap();
    again();
  });
  return html`<div class="dock next-steps">${
    batch && isOpen(batch) && !batch.archived
      ? html`<a class="button main" href=${`/make/batches/${id}`}>A lap of ${batchInWords(batch)} runs: go to it</a>`
      : html`<button type="button" class="main" data-drop onClick=${drop}>Discard the lap of a batch that is over</button>`
  }</div>`;
}
