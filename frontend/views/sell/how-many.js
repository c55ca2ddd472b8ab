/* How many of one thing go into the basket at once: one tap on a number, or typed. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';

const USUAL = [2, 3, 4, 5, 6, 8, 10, 12];

/** Asks for a number of a thing; `typed` is what was typed on its tile. */
export function HowMany({ thing, typed, add, close }) {
  const [text, setText] = useState(typed);
  const input = useRef();
  const first = useRef();
  // at once, so that the next key is for it
  useLayoutEffect(() => (typed ? input : first).current.focus({ preventScroll: true }), []);
  const pieces = /^\d{1,3}$/.test(text) ? Number(text) : 0;
  const submit = (event) => {
    event.preventDefault();
    if (pieces) add(pieces);
  };
  return html`
    <form class="opening sell-discount" data-how-many=${thing.key} onSubmit=${submit} onKeyDown=${({ key }) => key === 'Escape' && close()}>
      <div class="field">
        <label for="how-many">${thing.name}: how many?</label>
        <span class="control"><input id="how-many" inputmode="numeric" maxlength="3" autocomplete="off" ref=${input} value=${text} onInput=${({ target }) => setText(target.value)} />
          <button type="submit" disabled=${!pieces}>Add</button></span>
      </div>
      <p class="sell-numbers">
        ${USUAL.map((number, index) => html`<button type="button" ref=${index ? undefined : first} data-add=${number} aria-label=${`Add ${number}`} onClick=${() => add(number)}>${number}</button>`)}
        <button type="button" onClick=${close}>Cancel</button>
      </p>
    </form>
  `;
}
