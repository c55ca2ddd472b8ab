/* What a stall needs now and then: a free price, a discount, what leaves without money, the float. */
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { newId } from '../../data/clock.js';
import { factsOfDay, takingsOf } from '../../data/facts.js';
import { keepFloat } from '../../data/till.js';
import { AmountForm, NOTHING_TYPED } from '../parts/amount-form.js';
import { Choice } from '../parts/choice.js';
import { showMoney } from '../parts/money.js';
import { saying } from '../parts/notice.js';

/** What a tap on a tile does when it is not a sale. */
export const MODES = {
  'asked-for': { label: 'Asked for, had none', asks: 'Tap what was asked for' },
  swap: { label: 'Comes back', asks: 'Tap what comes back; then Done, and what goes out' },
  spoilt: { label: 'Spoilt', asks: 'Tap what is spoilt: one piece a tap' },
  given: { label: 'Given away', asks: 'Tap what is given away' },
  lost: { label: 'Lost', asks: 'Tap what is lost' },
};

export function More({ till, where, setMode, close }) {
  const [open, setOpen] = useState(false);
  return html`
    <details class="more" onToggle=${({ target }) => target.className === 'more' && setOpen(target.open)}>
      <summary>More at the stall</summary>
      ${open && html`<${Inside} till=${till} where=${where} setMode=${setMode} close=${close} />`}
    </details>
  `;
}

// made only when it is looked at, as every tap on a tile would draw it again
function Inside({ till, where, setMode, close }) {
  return html`
    <div class="next-steps">
      ${Object.entries(MODES).map(([mode, { label }]) => html`<button type="button" data-mode-of=${mode} onClick=${() => setMode(mode)}>${label}</button>`)}
    </div>
    <${FreePrice} till=${till} />
    <${Discount} till=${till} />
    ${where.box && html`<${Float} where=${where} />
      <p class="next-steps"><a class="button" href=${`/review/${where.day}/moved/${where.box}?booking=${where.booking}`}>Money in or out of the box</a></p>`}
    <${Takings} where=${where} />
    <button type="button" class="quiet" onClick=${close}>Close the stall on this phone</button>
  `;
}

function FreePrice({ till }) {
  const add = (price, name) => {
    const line = { key: newId(), name: name || 'Free price', price, group: null, quantity: 1, off: 0, reason: '' };
    till.change((made) => ({ ...made, lines: [...made.lines, line] }));
  };
  return html`<${MoneyForm} name="free" label="Something else, for" word="What it is" most="60" done="Add" use=${add} />`;
}

function Discount({ till }) {
  const [of, setOf] = useState('');
  const { lines } = till.shown.made;
  if (!lines.length) return null;
  const chosen = lines.some((line) => line.key === of) ? of : '';
  const take = (off, reason) => till.change((made) => (chosen
    ? { ...made, lines: made.lines.map((line) => (line.key === chosen ? { ...line, off, reason } : line)) }
    : { ...made, off, reason }));
  return html`
    <div class="opening">
      <${Choice} id="off-of" name="of" label="Cheaper" value=${chosen} set=${setOf} choices=${[['', 'the whole basket'], ...lines.map(({ key, name }) => [key, name])]} />
      <${MoneyForm} name="off" label="By" word="Why" done="Take off" use=${take} />
    </div>
  `;
}

function Float({ where: { day, booking, box } }) {
  const keep = (amount) => saying(`${showMoney(amount)} to start with is kept`, () => keepFloat({ day, booking, box }, amount));
  return html`<${MoneyForm} name="float" label="Change money at the start" use=${keep} />`;
}

// what is half typed here is not worth keeping
function MoneyForm({ use, ...how }) {
  const [typed, type] = useState(NOTHING_TYPED);
  const keep = async (amount, reason) => {
    await use(amount, reason);
    type(NOTHING_TYPED);
  };
  return html`<${AmountForm} ...${how} typed=${typed} type=${type} keep=${keep} />`;
}

function Takings({ where }) {
  const [told, setTold] = useState(null);
  const tell = async (event) => setTold(event.target.open ? await takingsOf(await factsOfDay(where.day)) : null);
  return html`
    <details class="takings" onToggle=${tell}>
      <summary>Takings so far</summary>
      ${told && html`
        <p><strong class="number" data-takings=${told.amount}>${showMoney(told.amount)}</strong> ${told.sales} sales, ${told.pieces} pieces</p>
        <ul class="lines">${told.payments.map((row) => html`<li>${row.payment} <span class="number">${showMoney(row.amount)}</span></li>`)}</ul>
      `}
    </details>
  `;
}
