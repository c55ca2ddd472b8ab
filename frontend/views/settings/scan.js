/* The camera, looking for the code that another phone shows. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { codeInLink } from '../../data/pairing.js';
import { canScan, scan } from '../../data/scanning.js';
import { say } from '../parts/notice.js';

export function Scan({ found }) {
  const [open, setOpen] = useState(false);
  if (!canScan) return null;
  if (!open) return html`<p><button type="button" onClick=${() => setOpen(true)}>Scan the code</button></p>`;
  return html`<${Camera} found=${found} close=${() => setOpen(false)} />`;
}

function Camera({ found, close }) {
  const video = useRef();
  useEffect(() => {
    const stop = new AbortController();
    scan(video.current, stop.signal)
      .then((text) => {
        if (text === null) return;
        const code = codeIn(text);
        if (code) found(code);
        else say('That is not a pairing code', { bad: true });
        close();
      })
      .catch((error) => {
        say(error.message, { bad: true });
        close();
      });
    return () => stop.abort();
  }, []);
  return html`
    <div class="settings-code">
      <video ref=${video} muted playsinline aria-label="What the camera sees" data-camera></video>
      <button type="button" onClick=${close}>Close the camera</button>
    </div>
  `;
}

function codeIn(text) {
  return codeInLink(text.slice(Math.max(0, text.indexOf('#'))));
}
