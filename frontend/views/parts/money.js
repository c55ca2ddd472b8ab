/* Money as this phone's language writes it. */
import { declared } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';

/** Write minor units; a cost each keeps up to two decimals more. */
export function showMoney(minor, quantity = 'money') {
  const code = currency();
  const exponent = declared().currencies[code];
  const more = quantity === 'money_each' ? 2 : 0;
  return new Intl.NumberFormat(undefined, {
    style: 'currency',
    currency: code,
    minimumFractionDigits: exponent,
    maximumFractionDigits: exponent + more,
  }).format(minor / 10 ** exponent);
}
