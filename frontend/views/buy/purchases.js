/* What was bought, month by month; each can be void, and recorded again. */
import { html } from 'htm/preact';
import { lengthsInWords } from '../../data/calculating.js';
import { factsWithVoids } from '../../data/facts.js';
import { countInWords, dateInWords } from '../../data/naming.js';
import { materialOf } from '../../data/purchases.js';
import { mayKnow } from '../../data/records.js';
import { byMonth, Groups } from '../parts/groups.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { useFollowed } from '../parts/use-records.js';
import { SpentLine } from '../review/spent-line.js';

export function Purchases() {
  if (!mayKnow('purchase')) return html`<${NoSuchScreen} />`;
  return html`<${Listed} />`;
}

function Listed() {
  const made = useFollowed(purchasesInWords, []);
  return html`
    <h1>Purchases</h1>
    <p class="lead">Cloth, elastic, thread and other supplies, at the price paid. What a piece costs is worked out from these.</p>
    <p><a class="button main" href="/buy/purchase/new">Record a purchase</a></p>
    ${made?.length === 0 && html`<p class="hint">None yet. A line ticked on the shopping list becomes one.</p>`}
    ${made && html`<${Groups} groups=${byMonth(made, ({ day }) => day)} line=${line} />`}
  `;
}

async function purchasesInWords() {
  const made = await factsWithVoids('purchase');
  const measured = made.filter(({ length }) => length);
  const words = await lengthsInWords(
    measured.map(({ length }) => length),
    'm',
  );
  return made.map((purchase) => ({ ...purchase, measure: purchase.length ? words[measured.indexOf(purchase)] : lots(purchase) }));
}

function lots(purchase) {
  const { lot } = materialOf(purchase);
  return countInWords(purchase.quantity, lot);
}

const line = (purchase) =>
  html`<${SpentLine} key=${purchase.id} fact=${purchase} name=${materialOf(purchase).name} about=${`${dateInWords(purchase.day)} · ${purchase.measure}`} />`;
