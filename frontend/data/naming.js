/* What records are called on the screens. */
import { fieldOf, kindNamed } from './asking.js';
import { dayOf } from './clock.js';
import { recordById } from './records.js';
import { written } from './written.js';

const daysWritten = (day, how) => written(`${day} ${JSON.stringify(how)}`, () => new Date(`${day}T12:00`).toLocaleDateString([], how));

/** A local day as people say it: Sat 28 Nov; with its year, unless it is this one. */
export function dayInWords(day) {
  if (!day) return '';
  const year = Number(`${day}`.slice(0, 4)) === new Date().getFullYear() ? undefined : 'numeric';
  // with a year British English sets a comma behind the weekday; names of bookings have one already
  return daysWritten(day, { weekday: 'short', day: 'numeric', month: 'short', year }).replace(/^(\p{L}+), /u, '$1 ');
}

/** The local days of a booking, the first and the last of several: Sat 28 Nov to Sun 29 Nov. */
export const daysInWords = (days) => [...new Set([days?.[0], days?.at(-1)])].map(dayInWords).join(' to ');

/** A local day to be found again: 25 Dec 2025. */
export const dateInWords = (day) => daysWritten(day, { day: 'numeric', month: 'short', year: 'numeric' });

/** The month of a local day: November 2026. */
export const monthInWords = (day) => daysWritten(day, { month: 'long', year: 'numeric' });

/** An instant (UTC ms, or text of one) to be found again: 25 Dec 2025, 14:05. */
export const momentInWords = (at) => new Date(at).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' });

/** A time of day as people say it: 14:05. */
export const timeInWords = (at) => new Date(at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });

/** A time at a booking: 14:05; with its day, where that has several. */
export const timeAtBooking = (at, id) => `${timeInWords(at)}${recordById('booking', id)?.days?.length > 1 ? ` on ${dayInWords(dayOf(at))}` : ''}`;

/** What cloth that comes home or is left over on a day is called: its name with the day behind it, as long as it may be. */
export function nameWithDay(name, day) {
  const behind = `, ${dateInWords(day)}`;
  return `${name.slice(0, fieldOf('remnant', 'name').most - behind.length)}${behind}`;
}

/** So many of something: 1 piece, 3 pieces; many, where it is more than an s behind one. */
export const countInWords = (number, one, many = `${one}s`) => `${number} ${number === 1 ? one : many}`;

/** What a batch is called. */
export const batchInWords = ({ number }) => (number ? `Batch ${number}` : 'Batch');

/** A record's name; without one it is called after what it links to, as the core declares. Batches, plans and bookings
    are named here: by a number, what they are for, or a day as this phone writes it. */
export function nameOf(kind, record) {
  if (!record) return '';
  if (record.name) return record.name;
  const naming = kindNamed(kind)?.naming;
  if (naming?.after.length) {
    const names = naming.after.map((link) => recordById(link.kind, record[link.field])?.name);
    return names.filter(Boolean).join(naming.joiner) || naming.otherwise;
  }
  if (kind === 'batch') return batchInWords(record);
  if (kind === 'plan')
    return [record.use === 'pack' ? 'Packing plan' : 'Sewing plan', nameOf('booking', recordById('booking', record.booking))]
      .filter(Boolean)
      .join(', ');
  if (kind === 'booking')
    return [nameOf('market', recordById('market', record.market)) || 'Stall', daysInWords(record.days)].filter(Boolean).join(', ');
  return kind;
}
