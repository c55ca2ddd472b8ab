/* The first page: what this is, and the ways to begin. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { byHand, install, installed, offered, onOffer } from '../../data/installing.js';
import { makeYear } from '../../data/inventing.js';
import { invented } from '../../data/store/which.js';
import { standing } from '../../data/sync.js';
import { say } from '../parts/notice.js';

export function Start() {
  return html`
    <h1>From cloth to stall</h1>
    <p class="lead">Boltfair is for a maker of gathered fabric hair ties: what cloth to buy and how to cut it, what stock is where,
      what was sold and what the day earned. It works on this phone with no signal, and what you enter stays on it until you
      pair it.</p>
    <div class="first-ways">
      ${
        invented
          ? html`<a class="button main" href="/sell">Today's market</a>`
          : html`<a class="button main" href="/buy/strip-length">Start with my first size</a><${Look} />`
      }
      ${!invented && !standing().paired && html`<a class="button" href="/settings#phones">Pair this phone</a>`}
      <${Install} />
    </div>
  `;
}

function Look() {
  // how much of the year is made; null while nobody wants it
  const [done, setDone] = useState(null);
  const wanted = useRef(null);
  const cancel = () => {
    wanted.current = null;
    setDone(null);
  };
  useEffect(() => cancel, []);
  const begin = async () => {
    const mine = {};
    wanted.current = mine;
    setDone(0);
    try {
      const isMine = () => wanted.current === mine;
      if (
        await makeYear(
          (share) => isMine() && setDone(share),
          () => !isMine(),
        )
      )
        location.assign('/sell');
    } catch (error) {
      cancel();
      say(error.message, { bad: true });
    }
  };
  if (done === null) return html`<button type="button" data-look onClick=${begin}>Look at an invented year</button>`;
  return html`
    <div class="first-making" role="status">
      <label for="making">Making a year of an invented maker on this phone</label>
      <progress id="making" max="1" value=${done}></progress>
      <button type="button" onClick=${cancel}>Cancel</button>
    </div>
  `;
}

function Install() {
  const [ready, setReady] = useState(offered());
  useEffect(() => onOffer(() => setReady(offered())), []);
  if (installed()) return null;
  const ask = async () => {
    await install();
    setReady(offered());
  };
  if (ready) return html`<button type="button" data-install onClick=${ask}>Install Boltfair</button>`;
  return html`<p class="hint" data-install-steps>To install: ${byHand()}.</p>`;
}
