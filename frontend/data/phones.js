/* The phones of the business, asked of the server: an owner's list, codes, and leaving. */
import { deviceId } from './clock.js';
import { Refused } from './exchange.js';
import { isHelper } from './records.js';
import { recall, remember } from './store/remembered.js';

/** All phones: [{id, name, role, paired_at, seen_at, unsent, revoked_at}]. */
export async function listPhones() {
  return (await ask('GET', '')).devices;
}

// so long ago a phone may have been heard and still count as known
const LATELY_MS = 5 * 60 * 1000;

/** Ask which phones were heard when, for `notHeard`: only owners are told, and only by the server. */
export async function askWhoWasHeard() {
  if (recall('sync') && !isHelper()) await remember('phones', await listPhones());
}

/** Phones whose records this one may lack at a time (UTC ms), and since when: [{name, since}]. `since` is null
    for a phone never heard, `name` for a phone that is told of no others: then it is known only when it synced itself. */
export function notHeard(about) {
  if (!recall('sync')) return [];
  const { last = null } = recall('exchanged') ?? {};
  const phones = isHelper() ? null : recall('phones');
  if (!phones) return [{ name: null, since: last }];
  return phones
    .filter(({ id, revoked_at: revoked }) => id !== deviceId() && !revoked)
    .map(({ name, seen_at: seen, unsent }) => ({ name, unsent, since: seen && last && Math.min(seen, last) }))
    .filter(({ since, unsent }) => unsent > 0 || !since || since < about - LATELY_MS);
}

/** A code that pairs one more phone: {code, link, qr, ends_at}; qr is an image's address. */
export function makeCode(role) {
  return ask('POST', '/codes', { role });
}

/** Take a phone off the business: its next exchange is refused. */
export function revokePhone(id) {
  return ask('POST', `/${id}/revoke`);
}

async function ask(method, path, body) {
  const headers = body ? { 'Content-Type': 'application/json' } : {};
  let reply;
  try {
    reply = await fetch(`/api/v1/devices${path}`, { method, headers, body: body && JSON.stringify(body) });
  } catch {
    throw new Error('The server cannot be reached');
  }
  const told = reply.status === 204 ? null : await reply.json().catch(() => null);
  if (!reply.ok) throw new Refused(reply.status, told);
  return told;
}
