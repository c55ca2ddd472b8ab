/* Choices that hold on this phone: currency, and the units a new field starts with. */
import { records } from './records.js';
import { recall, remember } from './store/remembered.js';
import { invented } from './store/which.js';

// where she was herself is not forgotten over the invented year
const LAST_SCREEN = invented ? 'last-screen-invented' : 'last-screen';

/** ISO 4217 code of the money shown and typed: the business's, once it is described. */
export function currency() {
  return records('business')[0]?.currency ?? recall('currency', 'EUR');
}

/** "metric" or "inch": what a field shows until its own unit is changed. */
export function measure() {
  return recall('measure', 'metric');
}

export const setCurrency = (code) => remember('currency', code);
export const setMeasure = (name) => remember('measure', name);

/** The unit a field of length starts with. */
export function firstUnit(field) {
  if (measure() === 'metric') return field.unit;
  return field.unit === 'm' ? 'yd' : 'in';
}

/** The address of the screen left last. Known before the store is open, so that its scripts can load meanwhile. */
export function lastScreen() {
  try {
    return localStorage.getItem(LAST_SCREEN) ?? '/start';
  } catch {
    return '/start'; // a browser may refuse it; nothing is lost but the place
  }
}

export function rememberScreen(path) {
  try {
    localStorage.setItem(LAST_SCREEN, path);
  } catch {
    // as above
  }
}
