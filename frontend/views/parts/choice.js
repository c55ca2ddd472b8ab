/* One of several to choose. */
import { html } from 'htm/preact';

/** A choice: [[value, words]], the value '' for none. */
export function Choice({ id, name, label, value, set, choices }) {
  return html`
    <div class="field">
      <label for=${id}>${label}</label>
      <span class="control"><select id=${id} name=${name} onChange=${({ target }) => set(target.value)}>
        ${choices.map(([key, words]) => html`<option value=${key} selected=${key === value}>${words}</option>`)}
      </select></span>
    </div>
  `;
}
