/* A record that two phones changed at once: what did not win, and taking it after all. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { edit } from '../../data/actions.js';
import { recordInWords } from '../../data/calculating.js';
import { clashOf, clashSeen } from '../../data/records.js';
import { saying } from '../parts/notice.js';
import { useWords } from '../parts/use-words.js';

export function Clash({ kind, record, done }) {
  const [clash, setClash] = useState(clashOf(kind.name, record.id));
  const words = useWords(() => clash && recordInWords(kind.name, clash), [clash]);
  if (!clash) return null;
  const seen = () => clashSeen(kind.name, record.id).then(() => setClash(null));
  const take = async () => {
    const taken = await saying('The other is saved on this phone', () => edit(kind.name, record.id, clash).then(() => true));
    if (!taken) return;
    await seen();
    done();
  };
  return html`
    <div class="caution" role="alert" data-clash>
      <p>Changed on two phones. The later change stands; the other phone had: <strong>${words || Object.values(clash).join(', ')}</strong></p>
      <div class="next-steps">
        <button type="button" onClick=${seen}>Keep this</button>
        <button type="button" onClick=${take}>Use the other</button>
      </div>
    </div>
  `;
}
