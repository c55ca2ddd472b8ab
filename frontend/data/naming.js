/* What records are called on the screens. */
import { recordById } from './records.js';

/** A record's name; products and bookings are called after what they link to. */
export function nameOf(kind, record) {
  if (!record) return '';
  if (record.name) return record.name;
  if (kind === 'product') {
    const [size, cloth] = [recordById('piece', record.size), recordById('cloth', record.cloth)];
    return [size?.name, cloth?.name].filter(Boolean).join(' ') || 'Product';
  }
  if (kind === 'booking') return `${nameOf('market', recordById('market', record.market)) || 'Stall'} ${record.days?.[0] ?? ''}`.trim();
  return kind;
}
