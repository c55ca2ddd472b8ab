/* Asking the browser not to throw away what is kept, once there is something to lose. */
import { recall, remember } from './store.js';

/** Ask once for storage that stays; browsers may say no. */
export async function askToPersist() {
  if (recall('asked-to-persist') || !navigator.storage?.persist) return;
  remember('asked-to-persist', true);
  await navigator.storage.persist();
}

/** What was granted, in words, and how much room is left in MB (null if unknown). */
export async function storageState() {
  const storage = navigator.storage;
  if (!storage?.persisted) return { words: 'This browser does not say', roomMb: null };
  const persisted = await storage.persisted();
  const { quota, usage } = await storage.estimate();
  return {
    words: persisted ? 'Granted: kept until you delete it' : 'Not granted: install Boltfair, so that it stays',
    roomMb: quota ? Math.round((quota - usage) / 1e6) : null,
  };
}
