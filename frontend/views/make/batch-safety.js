/* Before the first step of a batch: the lists for sewing and pressing, signed once a day for each person; what to mind while it is sewn. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { cautionsFor, isSigned, leaveWork } from '../../data/cutting.js';
import { passOn } from '../../data/forms.js';
import { recall, remember } from '../../data/store/remembered.js';
import { Choice } from '../parts/choice.js';
import { useFollowed } from '../parts/use-records.js';

const SEWN_WITH = ['sewing machine', 'hand needle'];
const IRON = 'iron';
const USUAL = { tool: SEWN_WITH[0], iron: true };

/** What a batch is sewn and pressed with: {use, set, tools, unsigned (tools that `person` has not signed for today), said ({tool: cautions}),
    person}; null until it is known. */
export function useSafety(person) {
  const [use, setUse] = useState(() => recall('sewn-with', USUAL));
  const name = person || recall('person', '');
  const tools = [use.tool, ...(use.iron ? [IRON] : [])];
  const told = useFollowed(async () => {
    const signed = await Promise.all(tools.map((tool) => isSigned(tool, name)));
    return { unsigned: tools.filter((_, index) => !signed[index]), said: await Promise.all(tools.map(cautionsFor)) };
  }, [tools.join(), name]);
  const set = (more) => {
    remember('sewn-with', { ...use, ...more });
    setUse({ ...use, ...more });
  };
  return told && { use, set, tools, person: name, ...told };
}

/** Nobody sews before the lists are signed for the day. */
export function BeforeSewing({ safety: { use, set, tools, unsigned, person }, who, back }) {
  const { route } = useLocation();
  const toList = async () => {
    leaveWork(back);
    if (person) remember('person', person);
    await passOn('safe-cutting-checklist', { tool: unsigned[0], layers: 1 });
    route('/make/safe-cutting-checklist');
  };
  return html`
    <section class="plain" data-unsigned=${unsigned.join()}>
      <h2>Before the first step</h2>
      <div class="opening">
        <${Choice} id="sewn-with" name="tool" label="Sewn with" value=${use.tool} set=${(tool) => set({ tool })} choices=${SEWN_WITH.map((tool) => [tool, tool])} />
        ${who}
      </div>
      <label class="tick"><input type="checkbox" name="iron" checked=${use.iron} onChange=${({ target }) => set({ iron: target.checked })} />
        <span>Pressed with an iron</span></label>
      <ul class="lines">${tools.map((tool) => html`<li><span>List for the ${tool}</span> <strong>${unsigned.includes(tool) ? 'not signed today' : 'signed today'}</strong></li>`)}</ul>
      <p class="lead">Tick what comes before the work with the ${unsigned[0]}, and sign it for the day. It brings you back here.</p>
    </section>
    <div class="dock next-steps"><button type="button" class="main" data-to-checklist onClick=${toList}>List for the ${unsigned[0]}</button></div>
  `;
}

/** What to mind while a batch is sewn: before the phone is touched, and the other musts. */
export function Minded({ safety: { said } }) {
  const musts = said.flatMap((one) => one.musts);
  return html`
    <section class="no-print">
      <p class="caution">${said.map((one) => one.before_phone).join(' ')} ${said[0].caution}</p>
      <details class="more"><summary>Mind while you sew (${musts.length})</summary><ul class="lines">${musts.map((text) => html`<li>${text}</li>`)}</ul></details>
    </section>
  `;
}

/** What is ticked once a batch is sewn: the items of its tools that come after the work, and whether all are. */
export function After({ safety: { said }, ticked, set }) {
  const items = said.flatMap((one) => one.after);
  const tick = (id, on) => set(on ? [...ticked, id] : ticked.filter((other) => other !== id));
  return html`
    <section class="plain">
      <h2>After the last piece</h2>
      <ul class="lines">${items.map(
        ({ id, text }) => html`
        <li key=${id}><label class="tick"><input type="checkbox" data-after=${id} checked=${ticked.includes(id)} onChange=${({ target }) => tick(id, target.checked)} />
          <span>${text}</span></label></li>`,
      )}</ul>
    </section>
  `;
}

/** Whether all that comes after the work is ticked. */
export const isAllAfter = ({ said }, ticked) => said.every((one) => one.after.every(({ id }) => ticked.includes(id)));
