/* A number for a thumb. */
import { html } from 'htm/preact';

/** A number with a large minus and plus, `most` at most; it can be typed, too. `tabindex` -1 where arrow keys go to it. */
export function Stepper({ name, value, most = Infinity, set, tabindex }) {
  const type = ({ target }) => {
    if (/^\d{1,5}$/.test(target.value)) set(Math.min(Number(target.value), most));
  };
  // what is typed takes the place of what is there
  const select = ({ target }) => target.select();
  const leave = ({ target }) => {
    target.value = value ?? '';
  };
  return html`
    <span class="stepper counter">
      <button type="button" tabindex=${tabindex} aria-label=${`One ${name} less`} disabled=${value === 0} onClick=${() => set(Math.max((value ?? 0) - 1, 0))}>−</button>
      <input tabindex=${tabindex} inputmode="numeric" maxlength="5" autocomplete="off" aria-label=${name} value=${value ?? ''} placeholder="–"
        onInput=${type} onBlur=${leave} onFocus=${select} onClick=${select} />
      <button type="button" tabindex=${tabindex} aria-label=${`One ${name} more`} disabled=${value >= most} onClick=${() => set((value ?? 0) + 1)}>+</button>
    </span>
  `;
}
