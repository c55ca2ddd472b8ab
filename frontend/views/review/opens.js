/* A figure that opens to what is behind it, which is made once somebody looks: dates by the dozen take a phone long. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';

/** `children` is a function; `word` is what the way to it is called. */
export function Opens({ said, word, children }) {
  const [open, setOpen] = useState(false);
  return html`
    <details class="why" onToggle=${({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary class="said">${said}<span class="why-word">${word}</span></summary>
      ${open && children()}
    </details>
  `;
}
