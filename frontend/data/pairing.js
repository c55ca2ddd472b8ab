/* Pairing this phone with a business by a code, and what becomes of what it holds. */
import { deviceId } from './clock.js';
import { Refused } from './exchange.js';
import { keepPairing } from './store/exchanged.js';
import { ownChanges } from './store/own-changes.js';
import { recall, remember } from './store/remembered.js';
import { invented } from './store/which.js';
import { syncNow } from './sync.js';

/** Pair by a code; `bring` says whether what is on a phone that had no business comes along. */
export async function pair(code, name, bring) {
  if (invented) throw new Error('Leave the invented year first: nothing of it is sent');
  await enter(code, name, bring);
  await syncNow();
}

/** Pair again by the code that this phone left with its last pairing: the server takes it once, within ten minutes. */
export async function pairAgain() {
  await enter(recall('again'), recall('sync').name, true);
}

async function enter(code, name, bring) {
  const before = recall('sync');
  // a browser writes the cookie to the disk half a minute later; this comes there before the phone counts as paired
  const again = crypto.randomUUID();
  const reply = await fetch('/api/v1/devices', {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify({ code, name, business: before?.business, device: deviceId(), again }),
  }).catch((error) => {
    throw new Error('The server cannot be reached: pair this phone where it has a network', { cause: error });
  });
  const told = await reply.json().catch(() => null);
  if (!reply.ok) throw new Refused(reply.status, told);
  const { device, business, epoch } = told;
  // paired before with this business: go on where it stood, in the role it had until it hears of another
  const sync = { epoch, cursor: 0, role: device.role, ...before, business, name: device.name };
  const outbox = before || bring ? ownChanges() : [];
  await keepPairing(
    device.id,
    sync,
    outbox.map((change) => stampedBy(change, device.id)),
    again,
  );
  remember('stopped', null);
  remember('trouble', null);
}

// what the server has not seen takes the name that it knows the phone by
function stampedBy(change, device) {
  if (change.lent || change.accepted || !change.stamp.endsWith(deviceId())) return change;
  return { ...change, stamp: change.stamp.slice(0, -device.length) + device };
}

const LOOKS_LIKE = [
  ['iPhone', /iPhone/],
  ['iPad', /iPad/],
  ['Android phone', /Android/],
];

/** What this phone may be called, from what its browser tells of itself. */
export const proposedName = () => LOOKS_LIKE.find(([, told]) => told.test(navigator.userAgent))?.[0] ?? 'Computer';

/** The code in a pairing link, or "". */
export function codeInLink(hash) {
  return new URLSearchParams(hash.slice(1)).get('pair') ?? '';
}

/** Take the business off this phone, with all that is on it; another one may then be paired with. */
export async function forgetAll() {
  await keepPairing(deviceId(), null, []);
  remember('stopped', null);
  remember('trouble', null);
}
