/* An amount of money, typed as people type it. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { readMoney } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';
import { useOnce } from './notice.js';

export const NOTHING_TYPED = { amount: '', reason: '' };

/** What is typed once it has been kept as `kept`: nothing, but what was typed since. */
export const onceKept = (kept) => (now) => (now === kept ? NOTHING_TYPED : now);

/** Asks for money, and with `word` for what it is about, in at most so many characters;
    `keep(amount, reason)` takes it, however often it is tapped. */
export function AmountForm({ name, label, word, most = 180, done = 'Record', main = false, typed, type, keep }) {
  const [problem, setProblem] = useState('');
  const submit = useOnce(async () => {
    const read = await readMoney(typed.amount);
    setProblem(read.problem);
    if (!read.problem) await keep(read.amount, typed.reason.trim());
  });
  const field = (part, words, more) => html`<div class="field">
    <label for=${`${name}-${part}`}>${words}</label>
    <span class="control"><input id=${`${name}-${part}`} name=${part} autocomplete="off" maxlength=${most} value=${typed[part]} ...${more} onInput=${({ target }) => type({ ...typed, [part]: target.value })} />
      ${part === 'amount' && html`<span class="unit" aria-hidden="true">${currency()}</span>`}</span>
    ${part === 'amount' && problem && html`<p class="problem" role="alert">${problem}</p>`}
  </div>`;
  return html`
    <form class="opening" onSubmit=${submit} data-money-form=${name}>
      ${field('amount', label, { inputmode: 'decimal', 'aria-invalid': problem ? 'true' : undefined })}
      ${word && field('reason', word)}
      <button type="submit" class=${main ? 'main' : ''} disabled=${!typed.amount.trim()}>${done}</button>
    </form>
  `;
}
