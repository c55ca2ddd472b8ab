/* What records are called on the screens. */
import { kindNamed } from './asking.js';
import { recordById } from './records.js';
import { written } from './written.js';

const daysWritten = (day, how) => written(`${day} ${JSON.stringify(how)}`, () => new Date(`${day}T12:00`).toLocaleDateString([], how));

/** A local day as people say it: Sat 28 Nov; with its year, unless it is this one. */
export function dayInWords(day) {
  if (!day) return '';
  const year = Number(`${day}`.slice(0, 4)) === new Date().getFullYear() ? undefined : 'numeric';
  return daysWritten(day, { weekday: 'short', day: 'numeric', month: 'short', year });
}

/** A local day to be found again: 25 Dec 2025. */
export const dateInWords = (day) => daysWritten(day, { day: 'numeric', month: 'short', year: 'numeric' });

/** The month of a local day: November 2026. */
export const monthInWords = (day) => daysWritten(day, { month: 'long', year: 'numeric' });

/** An instant (UTC ms, or text of one) to be found again: 25 Dec 2025, 14:05. */
export const momentInWords = (at) => new Date(at).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' });

/** A time of day as people say it: 14:05. */
export const timeInWords = (at) => new Date(at).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });

/** A record's name; products and bookings are called after what they link to, where the core declares it as it says. */
export function nameOf(kind, record) {
  if (!record) return '';
  if (record.name) return record.name;
  const naming = kindNamed(kind)?.naming;
  if (naming?.after.length) {
    const names = naming.after.map((link) => recordById(link.kind, record[link.field])?.name);
    return names.filter(Boolean).join(naming.joiner) || naming.otherwise;
  }
  if (kind === 'batch') return `Batch ${record.number ?? ''}`.trim();
  if (kind === 'plan')
    return [record.use === 'pack' ? 'Packing plan' : 'Sewing plan', nameOf('booking', recordById('booking', record.booking))]
      .filter(Boolean)
      .join(', ');
  if (kind === 'booking')
    return [nameOf('market', recordById('market', record.market)) || 'Stall', dayInWords(record.days?.[0])].filter(Boolean).join(', ');
  return kind;
}
