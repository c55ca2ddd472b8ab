/* An owner's view of the phones of the business: who they are, one more, one less. */
import { useEffect, useState } from 'preact/hooks';
import { html } from 'htm/preact';
import { deviceId } from '../../data/clock.js';
import { momentInWords, timeInWords } from '../../data/naming.js';
import { listPhones, makeCode, revokePhone } from '../../data/phones.js';
import { saying, useOnce } from '../parts/notice.js';

export function OtherPhones() {
  const [phones, setPhones] = useState([]);
  const [trouble, setTrouble] = useState('');
  const look = () =>
    listPhones().then(
      (found) => {
        setPhones(found);
        setTrouble('');
      },
      (error) => setTrouble(error.message),
    );
  useEffect(() => {
    look();
  }, []);
  const others = phones.filter((phone) => phone.id !== deviceId() && !phone.revoked_at);
  return html`
    <h3>Other phones</h3>
    ${trouble && html`<p class="hint">${trouble}: the list is not shown.</p>`}
    ${!trouble && !others.length && html`<p class="hint">None yet.</p>`}
    <ul class="lines" data-phones>
      ${others.map((phone) => html`<${OtherPhone} key=${phone.id} phone=${phone} look=${look} />`)}
    </ul>
    <${AddPhone} />
  `;
}

function OtherPhone({ phone, look }) {
  const [sure, setSure] = useState(false);
  const revoke = () => saying(`${phone.name} is removed`, () => revokePhone(phone.id)).then(look);
  const unsent = phone.unsent ? `, ${phone.unsent} not sent` : '';
  return html`
    <li>
      <span><strong>${phone.name}</strong>
        <small>${phone.role}, last seen ${phone.seen_at ? momentInWords(phone.seen_at) : 'never'}${unsent}</small></span>
      ${!sure && html`<button type="button" class="quiet" aria-label=${`Remove ${phone.name}`} onClick=${() => setSure(true)}>Remove</button>`}
      ${sure && html`<button type="button" onClick=${revoke}>Yes, remove ${phone.name}</button>`}
      ${sure && html`<p class="hint">It can no longer connect. What it has not sent stays on it, and can be saved there as a copy.</p>`}
    </li>
  `;
}

function AddPhone() {
  const [role, setRole] = useState('helper');
  const [made, setMade] = useState(null);
  const make = useOnce(() => saying('A code for one phone, good for ten minutes', async () => setMade(await makeCode(role))));
  return html`
    <div class="fields">
      <div class="field" data-quantity="choice">
        <label for="new-role">one more phone, for</label>
        <span class="control"><select id="new-role" onChange=${(event) => setRole(event.target.value)}>
          <option value="helper" selected=${role === 'helper'}>a helper, who sees no costs</option>
          <option value="owner" selected=${role === 'owner'}>an owner, who may do all</option>
        </select></span>
      </div>
    </div>
    <div class="next-steps"><button type="button" onClick=${make}>Add a phone</button></div>
    ${
      made &&
      html`
      <figure class="settings-code" data-code=${made.code}>
        <img src=${made.qr} alt="The code to be scanned by the other phone's camera" width="240" height="240" />
        <figcaption>Scan it with the other phone, or open Settings there and type${' '}
          <strong>${made.code}</strong>. Good once, until ${timeInWords(made.ends_at)}.</figcaption>
      </figure>
    `
    }
  `;
}
