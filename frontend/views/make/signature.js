/* One signed checklist, to look up later and to print. */
import { html } from 'htm/preact';
import { answer } from '../../data/calculating.js';
import { dateInWords, timeInWords } from '../../data/naming.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { useFacts } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';

export function Signature({ id }) {
  const facts = useFacts('checklist-signature');
  const fact = facts?.find((signed) => signed.id === id);
  const told = useWords(async () => fact && (await answer('safe-cutting-checklist', { tool: fact.tool, cloth: fact.cloth })).result, [fact?.id]);
  if (!facts) return html`<h1>Signed checklist</h1>`;
  if (!fact) return html`<${NoSuchScreen} />`;
  const ticked = fact.ticked.map((entry) => entry.item);
  const texts = new Map((told?.items ?? []).map((item) => [item.id, item.text]));
  const time = timeInWords(fact.at);
  return html`
    <h1>Signed checklist</h1>
    <dl class="facts">
      <div><dt>Day</dt><dd>${dateInWords(fact.day)}, ${time}</dd></div>
      <div><dt>Who</dt><dd>${fact.person}</dd></div>
      <div><dt>Tool</dt><dd>${fact.tool}</dd></div>
      <div><dt>Cloth</dt><dd>${fact.cloth}</dd></div>
      ${fact.skipped && html`<div><dt>Musts left out</dt><dd>${fact.skipped}</dd></div>`}
    </dl>
    <h2>Ticked</h2>
    <ul>${ticked.map((item) => html`<li key=${item}>${texts.get(item) ?? item}</li>`)}</ul>
    <p class="caution">${told?.caution}</p>
    <p class="no-print"><button type="button" onClick=${() => print()}>Print</button></p>
  `;
}
