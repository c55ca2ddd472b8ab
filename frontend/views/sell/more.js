/* What a stall needs now and then: another item, money back, what leaves without money, the float. */
import { countInWords } from '../../data/naming.js';
import { useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { factsOfDay, takingsOf } from '../../data/facts.js';
import { mayAdd } from '../../data/records.js';
import { keepFloat, withOther } from '../../data/till.js';
import { AmountForm, NOTHING_TYPED, onceKept } from '../parts/amount-form.js';
import { paymentInWords, showMoney } from '../parts/money.js';
import { Choice } from '../parts/choice.js';
import { saying } from '../parts/notice.js';
import { useFollowed } from '../parts/use-records.js';

/** What a tap on a tile does when it is not a sale. */
export const MODES = {
  'asked-for': { label: 'Asked for, none left', asks: 'Tap what was asked for' },
  swap: { label: 'Comes back', asks: 'Tap what comes back; then Done, and what goes out' },
  spoilt: { label: 'Spoilt', asks: 'Tap what is spoilt: one piece a tap' },
  given: { label: 'Given away', asks: 'Tap what is given away' },
  lost: { label: 'Lost', asks: 'Tap what is lost' },
};

/** Where more comes into what is sold. */
export const ADD_GOODS = 'Add to what you sell';

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
    ${
      where.box &&
      html`<${Float} where=${where} />
      <p class="next-steps"><a class="button" href=${`/review/${where.day}/moved/${where.box}?booking=${where.booking}`}>Money in or out of the box</a></p>`
    }
    <p class="next-steps"><a class="button" href="/sell/refund">Give money back</a>
      ${mayAdd('product') && html`<a class="button" href="/sell/goods">${ADD_GOODS}</a>`}</p>
    <${Takings} where=${where} />
    <button type="button" class="quiet" onClick=${close}>Close the stall on this phone</button>
  `;
}

function FreePrice({ till }) {
  const add = (price, name) => till.change((made) => withOther(made, price, name));
  return html`<${MoneyForm} name="free" label="Other item, price" word="What it is" most="60" done="Add" use=${add} />`;
}

/** A discount on the basket or on a line of it, with its reason. */
export function Discount({ till, done }) {
  const [of, setOf] = useState('');
  const [typed, type] = useState(NOTHING_TYPED);
  const { lines } = till.shown.made;
  const chosen = lines.some((line) => line.key === of) ? of : '';
  const take = (off, reason) => {
    till.change((made) =>
      chosen ? { ...made, lines: made.lines.map((line) => (line.key === chosen ? { ...line, off, reason } : line)) } : { ...made, off, reason },
    );
    done();
  };
  return html`
    <div class="opening sell-discount">
      <${Choice} id="off-of" name="of" label="Discount on" value=${chosen} set=${setOf} choices=${[['', 'the whole basket'], ...lines.map(({ key, name }) => [key, name])]} />
      <${AmountForm} main name="off" label="Amount" word="Why" done="Apply" typed=${typed} type=${type} keep=${take} />
    </div>
  `;
}

function Float({ where: { day, booking, box } }) {
  const keep = (amount) => saying(`${showMoney(amount)} float recorded`, () => keepFloat({ day, booking, box }, amount));
  return html`<${MoneyForm} name="float" label="Float at the start" use=${keep} />`;
}

// what is half typed here is not worth keeping
function MoneyForm({ use, ...how }) {
  const [typed, type] = useState(NOTHING_TYPED);
  const keep = async (amount, reason) => {
    // null: it could not be kept
    if ((await use(amount, reason)) !== null) type(onceKept(typed));
  };
  return html`<${AmountForm} ...${how} typed=${typed} type=${type} keep=${keep} />`;
}

function Takings({ where }) {
  const [open, setOpen] = useState(false);
  return html`
    <details class="sell-takings" onToggle=${({ target }) => setOpen(target.open)}>
      <summary>Takings so far</summary>
      ${open && html`<${TakingsNow} day=${where.day} />`}
    </details>
  `;
}

// they follow each sale and each refund
function TakingsNow({ day }) {
  const told = useFollowed(async () => takingsOf(await factsOfDay(day)), [day]);
  if (!told) return null;
  return html`
    <p><strong class="number" data-takings=${told.amount}>${showMoney(told.amount)}</strong> ${countInWords(told.sales, 'sale')}, ${countInWords(told.pieces, 'piece')}${told.refunds > 0 && `, ${showMoney(told.given_back)} given back`}</p>
    <ul class="lines">${told.payments.map((row) => html`<li><span>${paymentInWords(row)}</span> <span class="number">${showMoney(row.amount)}</span></li>`)}</ul>
  `;
}
