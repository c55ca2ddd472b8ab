/* Signing a checklist: once a day for each tool and person; musts may be skipped with a word. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { today } from '../../data/clock.js';
import { workToGoOn } from '../../data/cutting.js';
import { recall } from '../../data/store/remembered.js';
import { saying, useOnce } from '../parts/notice.js';
import { useFacts } from '../parts/use-records.js';

/** What was signed today for a tool by who cuts with this phone; undefined for nothing. */
export function useSigned(tool, person = recall('person', '')) {
  return (useFacts('checklist-signature') ?? []).find((fact) => fact.tool === tool && fact.day === today() && fact.person === person);
}

/** The signature for the day: of `items`, what comes before the work, the musts are ticked or a word says why not. */
export function Sign({ form, ticked, items }) {
  const [person, setPerson] = useState(recall('person', ''));
  const [skipped, setSkipped] = useState('');
  const { tool, cloth } = form.answer.input;
  const signed = useSigned(tool, person.trim());
  const musts = items.filter((item) => item.must && !ticked.includes(item.id));
  const left = musts.length;
  const needed = musts.find((item) => !item.skippable);
  const blocked = !form.answer.result.allowed || !person.trim() || needed || (left > 0 && !skipped.trim());
  const sign = useOnce(async () => {
    const signs = { tool, cloth, person: person.trim(), day: today() };
    await saying('Signed, saved on this phone', () =>
      state(
        'checklist-signature',
        {
          ...signs,
          ticked: items.filter(({ id }) => ticked.includes(id)).map(({ id }) => ({ item: id })),
          skipped: left > 0 ? skipped.trim() : '',
        },
        { person: signs.person },
      ),
    );
  });
  if (signed) {
    const toWork = workToGoOn();
    return html`
      <section data-signed=${signed.id}>
        <p><strong>Signed today by ${signed.person}</strong> for the ${tool}.${' '}
          <a href=${`/make/signed/${signed.id}`}>See or print it</a></p>
        ${toWork && html`<p><a class="button main" href=${toWork}>${toWork.includes('batches') ? 'To the batch' : 'To the cuts'}</a></p>`}
      </section>
    `;
  }
  return html`
    <form class="no-print" onSubmit=${sign} data-sign>
      <h2>Sign for today</h2>
      <div class="fields">
        <div class="field">
          <label for="sign-person">Your name</label>
          <span class="control"><input id="sign-person" name="person" type="text" maxlength="60" value=${person}
            onInput=${(event) => setPerson(event.target.value)} /></span>
        </div>
        ${
          left > 0 &&
          html`
          <div class="field">
            <label for="sign-skipped">${countInWords(left, 'must is', 'musts are')} unticked: why?</label>
            <span class="control"><input id="sign-skipped" name="skipped" type="text" maxlength="200" value=${skipped}
              onInput=${(event) => setSkipped(event.target.value)} /></span>
          </div>
        `
        }
      </div>
      ${needed && html`<p class="problem" data-needed=${needed.id}>Cannot be left out: ${needed.text}</p>`}
      <button class="main" type="submit" disabled=${Boolean(blocked)}>Sign for today</button>
    </form>
  `;
}
