/* Money as this phone's language writes it. */
import { declared } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';

const formats = new Map();

// the first one takes a phone longer than the rest of a screen: it is made while the screen's scripts load
setTimeout(() => formatFor('EUR', 2, 0));

/** Write minor units; a cost each keeps up to two decimals more. */
export function showMoney(minor, quantity = 'money') {
  const code = currency();
  const exponent = declared().currencies[code];
  const key = `${code} ${quantity}`;
  if (!formats.has(key)) formats.set(key, formatFor(code, exponent, quantity === 'money_each' ? 2 : 0));
  return formats.get(key).format(minor / 10 ** exponent);
}

function formatFor(code, exponent, more) {
  return new Intl.NumberFormat(undefined, {
    style: 'currency',
    currency: code,
    minimumFractionDigits: exponent,
    maximumFractionDigits: exponent + more,
  });
}
