/* A line of money that was spent: what for, how much, and that it is void. */
import { useEffect, useRef } from 'preact/hooks';
import { html } from 'htm/preact';
import { makeVoid, recordAgain } from '../../data/purchases.js';
import { KeptState } from '../parts/kept-state.js';
import { showMoney } from '../parts/money.js';
import { saying, useOnce } from '../parts/notice.js';

/** A purchase or an expense. */
export function SpentLine({ fact, name, about }) {
  const undo = useOnce(() =>
    saying(
      `${name}, ${showMoney(fact.amount)}, is void`,
      () => makeVoid(fact),
      () => recordAgain(fact),
    ),
  );
  // where the address names it, it is looked at
  const shown = useRef();
  useEffect(() => {
    if (location.hash === `#${fact.id}`) shown.current.scrollIntoView({ block: 'center' });
  }, []);
  return html`
    <li id=${fact.id} ref=${shown} data-spent=${fact.amount} data-void=${fact.never || undefined}>
      <span><strong>${name}</strong><small>${about}${fact.never && ' · void'}</small></span>
      <span class="number">${showMoney(fact.amount)}</span>
      <${KeptState} id=${fact.id} />
      ${!fact.never && html`<button type="button" class="quiet" aria-label=${`Void ${name}, ${about}`} onClick=${undo}>Void</button>`}
    </li>
  `;
}
