// @ts-check
/* Opening the store, before the first screen. */
import { connect, disconnect, onNewLeaf } from './connection.js';
import { LEFT, notify, otherWindows } from './following.js';
import { dropInvented } from './invented-year.js';
import { loadMemory } from './loading.js';
import { unwritten } from './memory.js';
import { recall, remember } from './remembered.js';
import { giveFreeWhenLeft, openAnew, takeCarried } from './reopening.js';
import { invented } from './which.js';

// behind what is written when a page is left
giveFreeWhenLeft(disconnect);

/** Open the store and load it; call once before the first screen. Resolves to whether it had been lost. */
export async function openStore() {
  try {
    await connect();
  } catch (error) {
    openAnew(unwritten);
    throw error;
  }
  await loadMemory();
  onNewLeaf();
  // left already, though the browser was killed before it had written that down
  if (invented && !recall('device')) {
    await dropInvented();
    location.reload();
    await new Promise(() => {});
  }
  const carried = takeCarried();
  for (const [key, value] of carried ?? []) remember(key, value);
  otherWindows.onmessage = async ({ data }) => {
    if (data === LEFT) location.replace('/');
    await loadMemory();
    await notify(null);
  };
  return carried !== null;
}
