/* The sewing plans: what they still want, what of it is to be cut, and a batch of it with one tap. */
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { draftOfBatch, keepDraftOfBatch } from '../../data/batches.js';
import { dayInWords, nameOf } from '../../data/naming.js';
import { recordById } from '../../data/records.js';
import { draftFor, isCutting, planCutting, stillToSew } from '../../data/sewing-plans.js';
import { useFollowed } from '../parts/use-records.js';

/** What the plans still want, as `stillToSew` tells, on the first screen of Make. */
export function SewingPlans({ told }) {
  const { route } = useLocation();
  if (!told.plans.length) return null;
  const strips = told.wanted.reduce((sum, { quantity }) => sum + quantity, 0);
  const cut = async () => {
    await planCutting(told.wanted);
    route('/buy/plan');
  };
  const sew = async (plan, line) => {
    await keepDraftOfBatch({ ...draftOfBatch(), ...draftFor(plan, line) });
    route('/make/batches/new');
  };
  return html`
    <section class="plain" data-sewing-plans>
      <h2>Sewing plan</h2>
      ${told.plans.map((plan) => html`<${ForBooking} key=${plan.plan} plan=${plan} sew=${sew} />`)}
      ${strips > 0 && !isCutting() && html`<p><button type="button" class="main" data-plan-cutting=${strips} onClick=${cut}>Plan the cutting of ${strips} strips</button></p>`}
      ${strips > 0 && isCutting() && html`<p class="hint">${strips} strips are still to cut for it: end the cutting that is begun first.</p>`}
    </section>
  `;
}

function ForBooking({ plan, sew }) {
  const wanted = plan.lines.filter(({ left }) => left > 0);
  return html`
    <h3>For ${bookingInWords(plan)}</h3>
    ${!wanted.length && html`<p class="hint">All of it is begun.</p>`}
    <ul class="lines">${wanted.map(
      (line) => html`
      <li key=${line.product} data-still=${line.left} data-product=${line.product}>
        <span>${productName(line)}<small>${stillInWords(line)}</small></span>
        ${line.strips > 0 && html`<button type="button" data-sew=${line.strips} aria-label=${`Sew ${line.strips} × ${productName(line)}`} onClick=${() => sew(plan, line)}>Sew ${line.strips}</button>`}
      </li>`,
    )}</ul>
  `;
}

const productName = ({ product, size, cloth }) => nameOf('product', recordById('product', product) ?? { size, cloth });

function bookingInWords({ booking, needed }) {
  const record = recordById('booking', booking);
  return record?.name || !record ? `${nameOf('booking', record)} ${dayInWords(needed)}`.trim() : nameOf('booking', record);
}

const stillInWords = ({ quantity, begun, left, strips }) =>
  [begun ? `${left} of ${quantity} still to sew` : `${left} to sew`, strips ? 'its strips are cut' : 'no strips of it are cut'].join(', ');

/** Lines of the plans whose strips are cut, to begin a batch with: `change` takes fields of its draft. */
export function FromPlans({ change }) {
  const told = useFollowed(stillToSew, []);
  const lines = (told?.plans ?? []).flatMap((plan) => plan.lines.filter(({ strips }) => strips > 0).map((line) => ({ plan, line })));
  if (!lines.length) return null;
  return html`
    <section class="plain">
      <h2>From the sewing plan</h2>
      <ul class="lines">${lines.map(
        ({ plan, line }) => html`
        <li key=${`${plan.plan} ${line.product}`}><span>${productName(line)}<small>for ${bookingInWords(plan)}</small></span>
          <button type="button" data-from-plan=${line.strips} aria-label=${`Sew ${line.strips} × ${productName(line)}`} onClick=${() => change(draftFor(plan, line))}>Sew ${line.strips}</button></li>`,
      )}</ul>
    </section>
  `;
}
