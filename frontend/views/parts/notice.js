/* One line at the bottom that says what was just kept, or could not be. */
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';

const SHOWN_MS = 10000;
const listeners = new Set();

/** Say something; `undo`, if given, is offered for ten seconds. */
export function say(text, { bad = false, undo = null } = {}) {
  listeners.forEach((listener) => listener({ text, bad, undo }));
}

/** Run an action and say what came of it; a failure is said and stays. */
export async function saying(done, action, undo = null) {
  try {
    const result = await action();
    say(done, { undo: undo && (() => undo(result)) });
    return result;
  } catch (error) {
    say(error.message, { bad: true });
    return null;
  }
}

/** An action that a second tap does not begin again before it has ended. */
export function useOnce(action) {
  const busy = useRef(false);
  return async (...given) => {
    given[0]?.preventDefault?.();
    if (busy.current) return;
    busy.current = true;
    try {
      await action(...given);
    } finally {
      busy.current = false;
    }
  };
}

export function Notice() {
  const [said, setSaid] = useState(null);
  useEffect(() => {
    listeners.add(setSaid);
    return () => listeners.delete(setSaid);
  }, []);
  useEffect(() => {
    if (!said || said.bad) return undefined;
    const timer = setTimeout(() => setSaid(null), SHOWN_MS);
    return () => clearTimeout(timer);
  }, [said]);
  // a mark and no :has(), which would have every change anywhere ask for all styles again
  useLayoutEffect(() => {
    document.documentElement.toggleAttribute('data-noticed', Boolean(said));
  }, [said]);
  const undo = () => {
    setSaid(null);
    said.undo();
  };
  return html`
    <div class="notice" role="status" data-bad=${said?.bad || undefined} hidden=${!said}>
      ${said && html`<span>${said.text}</span>`}
      ${said?.undo && html`<button type="button" onClick=${undo}>Undo</button>`}
      ${said && html`<button type="button" onClick=${() => setSaid(null)}>Close</button>`}
    </div>
  `;
}
