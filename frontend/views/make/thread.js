/* Thread by colour: what the plan takes, what is on the spools, what to buy; a spool can be weighed. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { edit } from '../../data/actions.js';
import { kindNamed } from '../../data/calculating.js';
import { countInWords, nameOf } from '../../data/naming.js';
import { fieldsOf } from '../../data/record-forms.js';
import { mayAdd, recordById, records } from '../../data/records.js';
import { sewWith, threadOfPlan } from '../../data/threads.js';
import { putOnList } from '../buy/list-lines.js';
import { Choice } from '../parts/choice.js';
import { Field } from '../parts/field.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFollowed, useRecords } from '../parts/use-records.js';
import { useLengths } from '../parts/use-words.js';
import { Missing, thereAndBack } from '../parts/way-back.js';
import { useRecordForm } from '../settings/record-form.js';

const WEIGHED = ['grams', 'empty', 'tex'];
// nobody reads a spool off more closely
const METRE = 1000;

export function Thread() {
  useRecords();
  // a choice is no record: it is asked for by itself
  const [choices, again] = useState(0);
  const told = useFollowed(threadOfPlan, [choices]);
  const sew = async (cloth, thread) => {
    if (await saying('Saved on this phone', () => sewWith(cloth, thread).then(() => true))) again(choices + 1);
  };
  if (!records('thread').length)
    return html`<h1>Thread</h1><${Missing} kind="thread" says="No thread is saved yet. Add one, and what batches take of it is worked out here." does="Add a thread" />`;
  return html`
    <h1>Thread</h1>
    <p class="lead">What open batches and the plan take, from the seams of each size. What is missing can go on the list.</p>
    ${told && html`<${Threads} threads=${told.threads} />`}
    ${told?.cloths.length > 0 && html`<${Cloths} cloths=${told.cloths} sew=${sew} />`}
    <p><a class="button" href=${thereAndBack('/settings/thread/new')}>Add a thread</a></p>
  `;
}

function Threads({ threads }) {
  const words = useLengths(
    threads.flatMap(({ length, at_home: home }) => [Math.ceil(length / METRE) * METRE, Math.floor(home / METRE) * METRE]),
    'm',
  );
  return html`<ul class="lines">${threads.map((row, index) => html`<${OfOne} key=${row.thread} row=${row} takes=${words[2 * index]} home=${words[2 * index + 1]} />`)}</ul>`;
}

function OfOne({ row, takes, home }) {
  const { thread, pieces, length, spools, cost } = row;
  const record = recordById('thread', thread);
  const amount = countInWords(spools, 'spool');
  const onList = records('list-line').some((line) => line.thread === thread && !line.bought);
  const put = useOnce(() => putOnList({ name: `${record.name}: ${amount}`, thread, packs: spools, cost, quantity: pieces }));
  return html`
    <li data-thread=${thread} data-length=${length} data-spools=${spools}>
      <span><a class="to-record" href=${thereAndBack(`/settings/thread/${thread}`)}>${record.name}</a>
        <small>${pieces > 0 ? `${pieces} pieces take ${takes}` : 'nothing planned takes it'} · ${row.at_home > 0 ? home : 'none'} at home</small></span>
      ${pieces > 0 && html`<strong class="number">${spools ? `buy ${amount}` : 'enough'}${spools > 0 && typeof cost === 'number' ? `, ${showMoney(cost)}` : ''}</strong>`}
      ${spools > 0 && (onList ? html`<a class="button" href="/buy/list">On the list</a>` : mayAdd('list-line') && html`<button type="button" onClick=${put}>Put on the list</button>`)}
      <details class="more make-weigh">
        <summary>Weigh its spool</summary>
        <${Weigh} record=${record} />
      </details>
    </li>
  `;
}

function Weigh({ record }) {
  const kind = kindNamed('thread');
  const form = { ...useRecordForm(kind, record, `weighed:${record.id}`), calculator: { name: `weigh-${record.id}` } };
  const asked = fieldsOf(kind).filter(({ name }) => WEIGHED.includes(name));
  const save = useOnce(async () => {
    const newest = await form.newest();
    if (!newest) return;
    const weight = Object.fromEntries(asked.map(({ name }) => [name, newest[name]]));
    if (await saying(`${record.name} is weighed`, () => edit('thread', record.id, weight))) form.drop();
  });
  if (!form.typed) return null;
  return html`
    <form onSubmit=${save} novalidate autocomplete="off" data-weigh>
      <div class="fields">${asked.map((field) => html`<${Field} key=${field.name} field=${field} path=${field.name} value=${form.typed[field.name]} form=${form} />`)}</div>
      <p class="next-steps"><button type="submit" disabled=${!form.fields}>Save</button></p>
    </form>
  `;
}

function Cloths({ cloths, sew }) {
  const choices = [['', 'choose'], ...records('thread').map(({ id, name }) => [id, name])];
  return html`
    <section class="plain">
      <h2>In the plan</h2>
      <div class="fields">${cloths.map(
        ({
          cloth,
          thread,
          pieces,
        }) => html`<${Choice} key=${cloth} id=${`thread-${cloth}`} name=${`thread-${cloth}`} label=${`${nameOf('cloth', recordById('cloth', cloth))}, ${pieces} pieces`}
        value=${thread ?? ''} set=${(chosen) => sew(cloth, chosen)} choices=${choices} />`,
      )}</div>
    </section>
  `;
}
