/* Signing a checklist: once a day for each tool and person; musts may be skipped with a word. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { state } from '../../data/actions.js';
import { today } from '../../data/clock.js';
import { cutting } from '../../data/cutting.js';
import { recall, remember } from '../../data/store.js';
import { saying } from '../parts/notice.js';
import { useFacts } from '../parts/use-records.js';

export function Sign({ form, ticked, left }) {
  const facts = useFacts('checklist-signature') ?? [];
  const [person, setPerson] = useState(recall('person', ''));
  const [skipped, setSkipped] = useState('');
  const { tool, cloth } = form.answer.input;
  const signed = facts.find(
    (fact) => fact.tool === tool && fact.day === today() && fact.person === person.trim(),
  );
  const blocked = !form.answer.result.allowed || !person.trim() || (left > 0 && !skipped.trim());
  const sign = async (event) => {
    event.preventDefault();
    const items = form.answer.result.items.map((item) => item.id).filter((id) => ticked.includes(id));
    const id = await saying('Signed, kept on this phone', () => state('checklist-signature', {
      tool,
      cloth,
      person: person.trim(),
      day: today(),
      ticked: items.map((item) => ({ item })),
      skipped: left > 0 ? skipped.trim() : '',
    }));
    if (id) remember('person', person.trim());
  };
  if (signed) {
    return html`
      <section class="sign" data-signed=${signed.id}>
        <p><strong>Signed today by ${signed.person}</strong> for the ${tool}.${' '}
          <a href=${`/make/signed/${signed.id}`}>See or print it</a></p>
        ${cutting().layout && html`<p><a class="button main" href="/make/cutting/steps">To the cuts</a></p>`}
      </section>
    `;
  }
  return html`
    <form class="sign no-print" onSubmit=${sign} data-sign>
      <h2>Sign for today</h2>
      <div class="fields">
        <div class="field">
          <label for="sign-person">Your name</label>
          <span class="control"><input id="sign-person" name="person" type="text" maxlength="60" value=${person}
            onInput=${(event) => setPerson(event.target.value)} /></span>
        </div>
        ${left > 0 && html`
          <div class="field">
            <label for="sign-skipped">${left} ${left === 1 ? 'must is' : 'musts are'} unticked: why?</label>
            <span class="control"><input id="sign-skipped" name="skipped" type="text" maxlength="200" value=${skipped}
              onInput=${(event) => setSkipped(event.target.value)} /></span>
          </div>
        `}
      </div>
      <button class="main" type="submit" disabled=${blocked}>Sign for today</button>
    </form>
  `;
}
