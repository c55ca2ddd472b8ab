/* The phones of the business, asked of the server: an owner's list, codes, and leaving. */
import { Refused } from './exchange.js';

/** All phones: [{id, name, role, paired_at, seen_at, unsent, revoked_at}]. */
export async function listPhones() {
  return (await ask('GET', '')).devices;
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
