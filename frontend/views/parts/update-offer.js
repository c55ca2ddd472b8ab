/* Offers a new version that has been downloaded; it waits until it is wanted. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { onUpdate, updateReady, useUpdate } from '../../data/updates.js';

export function UpdateOffer() {
  const [ready, setReady] = useState(updateReady());
  useEffect(() => {
    // it may have come between the first paint and now
    setReady(updateReady());
    return onUpdate(() => setReady(updateReady()));
  }, []);
  if (!ready) return null;
  return html`
    <div class="offer" role="status" data-update-ready>
      <span>A new version is here. What you typed stays.</span>
      <button type="button" onClick=${useUpdate}>Use it now</button>
    </div>
  `;
}
