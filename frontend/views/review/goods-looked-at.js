/* Which goods a screen of money is about: chosen once for costs and prices. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { goodsLookedAt, goodsMadeLast, goodsToCost, lookAtGoods } from '../../data/costs.js';
import { Choice } from '../parts/choice.js';

/** [the key of the goods, null until it is known; the choice of them]. */
export function useGoods(choices = goodsToCost()) {
  const known = (key) => choices.some(([other]) => other === key);
  const [goods, setGoods] = useState(known(goodsLookedAt()) ? goodsLookedAt() : null);
  useEffect(() => {
    if (!goods) goodsMadeLast().then((last) => setGoods(known(last) ? last : choices[0]?.[0]));
  }, []);
  const look = (key) => {
    setGoods(key);
    lookAtGoods(key);
  };
  const choice = html`<div class="review-goods no-print"><${Choice} id="goods" name="goods" label="Of what" value=${goods} set=${look} choices=${choices} /></div>`;
  return [goods, choice];
}

/** Said while a year of records is added up. */
export const AddingUp = () => html`<p class="hint" role="status">Adding up…</p>`;
