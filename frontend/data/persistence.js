/* Asking the browser not to throw away what is kept, once there is something to lose. */
import { today } from './clock.js';
import { recall, remember } from './store/remembered.js';
import { invented } from './store/which.js';

/** Whether the app was opened from the home screen, and not as a page of the browser. */
const isInstalled = () => navigator.standalone === true || matchMedia('(display-mode: standalone)').matches;

/** Whether this is a page of an iPhone's browser: what it keeps is not what the installed app keeps, and may be
    cleared after seven days without a visit. */
export const isPageOfIphone = () => navigator.standalone === false;

/** Ask for storage that stays, once a day while it is not granted, and once the app was installed: browsers may say no. */
export async function askToPersist() {
  const asked = `${today()} ${isInstalled()}`;
  if (invented || recall('asked-to-persist') === asked || !navigator.storage?.persist) return;
  remember('asked-to-persist', asked);
  if (!(await navigator.storage.persisted())) await navigator.storage.persist();
}

/** What was granted, and how much room is left (null if unknown), in words. */
export async function storageState() {
  const storage = navigator.storage;
  if (!storage?.persisted) return { words: 'This browser does not say', room: null };
  const persisted = await storage.persisted();
  const { quota, usage } = await storage.estimate();
  return {
    words: persisted ? 'Granted: kept until you delete it' : 'Not granted: install Boltfair, so that it stays',
    room: quota ? bytesInWords(quota - usage) : null,
  };
}

function bytesInWords(bytes) {
  const [per, unit] = bytes < 1e9 ? [1e6, 'MB'] : [1e9, 'GB'];
  return `${Math.floor(bytes / per).toLocaleString()} ${unit}`;
}
