/* Ids made from names, so that phones without signal mean the same record. */
import { deviceId } from './clock.js';
import { recall } from './store/remembered.js';

/** The id of a name within the business, the same on every phone of it: UUIDv5 (RFC 9562, 5.5). */
export async function namedId(name) {
  const business = (recall('sync')?.business ?? deviceId())
    .replaceAll('-', '')
    .match(/../g)
    .map((pair) => parseInt(pair, 16));
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-1', Uint8Array.of(...business, ...new TextEncoder().encode(name))));
  bytes[6] = (bytes[6] & 0x0f) | 0x50;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const digits = [...bytes.slice(0, 16)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return digits.replace(/(.{8})(.{4})(.{4})(.{4})(.{12})/, '$1-$2-$3-$4-$5');
}
