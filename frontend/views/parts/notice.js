/* One line at the bottom that says what was just kept, or could not be. */
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { clockOff } from '../../data/clock.js';

const SHOWN_MS = 10000;
const listeners = new Set();

/** Say something; `undo`, if given, is offered for ten seconds. */
export function say(text, { bad = false, undo = null } = {}) {
  listeners.forEach((listener) => listener({ text, bad, undo }));
}

/** Run an action and say what came of it, nothing for ''; a failure is said and stays. */
export async function saying(done, action, undo = null) {
  try {
    const result = await action();
    if (done) say(done, { undo: undo && (() => undo(result)) });
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

/** A way to run actions one after the other, each on what the one before it left. */
export function useInTurn() {
  const last = useRef(null);
  return (action) => {
    // the first one begins at once, on what is there when it is asked for
    const mine = last.current ? last.current.then(action, action) : action();
    const ended = () => {
      if (last.current === mine) last.current = null;
    };
    last.current = mine;
    mine.then(ended, ended);
    return mine;
  };
}

/** Said where times matter: this phone's clock is wrong. */
export function ClockOff() {
  const off = clockOff();
  if (!off) return null;
  const minutes = Math.round(Math.abs(off) / 60000);
  return html`<p class="verdict" data-allowed="false" data-clock-off=${off}>This phone's clock is ${minutes} minutes ${off > 0 ? 'fast' : 'slow'}. What you record carries the server's time; set the phone's clock.</p>`;
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
  const line = useRef();
  // a mark and no :has(), which would have every change anywhere ask for all styles again
  useLayoutEffect(() => {
    document.documentElement.toggleAttribute('data-noticed', Boolean(said));
    if (!said) return undefined;
    // what lies above it makes room for all its lines, however large the words are
    const watching = new ResizeObserver(([{ target }]) => document.documentElement.style.setProperty('--notice-height', `${target.offsetHeight}px`));
    watching.observe(line.current);
    return () => watching.disconnect();
  }, [said]);
  const undo = () => {
    setSaid(null);
    said.undo();
  };
  return html`
    <div class="notice" ref=${line} role="status" data-bad=${said?.bad || undefined} hidden=${!said}>
      ${said && html`<span>${said.text}</span>`}
      ${said?.undo && html`<button type="button" onClick=${undo}>Undo</button>`}
      ${said && html`<button type="button" onClick=${() => setSaid(null)}>Close</button>`}
    </div>
  `;
}
