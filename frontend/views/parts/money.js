/* Money as this phone's language writes it. */
import { declared } from '../../data/calculating.js';
import { currency } from '../../data/preferences.js';
import { written } from '../../data/written.js';

const formats = new Map();

/** Write minor units; a cost each in coins, to a tenth, as long as it is no whole unit: 38.6 c. */
export function showMoney(minor, quantity = 'money') {
  const code = currency();
  return written(`${minor} ${code} ${quantity}`, () => inWords(minor, quantity, code));
}

/** Make ready to write money: the first amount takes a phone longer than all else that a tap shows. */
export const readyToShow = () => inWords(0, 'money', currency());

function inWords(minor, quantity, code) {
  const exponent = declared().currencies[code];
  const coin = declared().coins[code];
  if (quantity === 'money_each' && coin && minor < 10 ** exponent) {
    return `${minor.toLocaleString(undefined, { maximumFractionDigits: 1 })} ${coin}`;
  }
  if (!formats.has(code)) formats.set(code, formatFor(code, exponent));
  return formats.get(code).format(minor / 10 ** exponent);
}

function formatFor(code, exponent, digits = exponent) {
  return new Intl.NumberFormat(undefined, { style: 'currency', currency: code, minimumFractionDigits: exponent, maximumFractionDigits: digits });
}

/** Write an amount a piece to the last digit there is: €1.0018. */
export function exactMoney(minor) {
  const exponent = declared().currencies[currency()];
  return formatFor(currency(), exponent, exponent + 2).format(minor / 10 ** exponent);
}

/** How money changed hands: cash, card, other; none in an even swap. */
export const paymentInWords = ({ payment }) => (payment === 'none' ? 'swap' : payment);
