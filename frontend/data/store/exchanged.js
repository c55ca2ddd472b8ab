// @ts-check
/* What comes of a server: what an exchange brought, and a pairing; each is written all or none. */
import { notify, otherWindows } from './following.js';
import { loadMemory } from './loading.js';
import { appendTo } from './log.js';
import { memory } from './memory.js';
import { changeOutbox, refillOutbox } from './outbox.js';
import { changeInMemory } from './own-changes.js';
import { stillStands } from './pulled.js';
import { isLater } from './remembered.js';
import { ALL_STORES, PULLED } from './stores.js';
import { write } from './writing.js';

/** Write what an exchange brought, all or none, if things still stand as they did when it was sent.

    Takes: stood, the epoch and cursor that were sent; brought, {sync, page?, descriptions?, clock?,
    drop?, put?, empty?}: page is {from, changes} for the log; drop are ids that leave the
    outbox, put changes that enter it or replace one there; empty clears all that was pulled before.
    Resolves to false, with nothing written, if another window was there first.
    @param {Standing} stood
    @param {Brought} brought */
export async function keepExchange(stood, brought) {
  const { empty, page, put = [], drop = [] } = brought;
  let written = false;
  await write(ALL_STORES, 'strict', (tx) => [
    writeExchange(tx, stood, brought).then((done) => {
      written = done;
    }),
  ]);
  if (written) rememberExchange(brought);
  else await loadMemory();
  otherWindows.postMessage('exchange');
  const changed = empty || page?.changes.length || put.length || drop.length;
  if (!written || changed) await notify(null);
  return written;
}

/** @param {Writing} tx
    @param {Standing} stood
    @param {Brought} brought */
async function writeExchange(tx, stood, { sync, page, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (!(await stillStands(tx, stood))) return false;
  const [remembered, log, held] = [tx.objectStore('remembered'), tx.objectStore('log'), tx.objectStore('descriptions')];
  if (empty) await Promise.all(PULLED.map((name) => tx.objectStore(name).clear()));
  if (page?.changes.length) await appendTo(log, page);
  const described = Object.entries(descriptions).map(([key, fields]) => held.put(fields, key));
  const ahead = isLater(clock, await remembered.get('clock'));
  await Promise.all([changeOutbox(tx, put, drop), ...described, ahead && remembered.put(clock, 'clock'), remembered.put(sync, 'sync')]);
  return true;
}

/** @param {Brought} brought */
function rememberExchange({ sync, clock, empty, descriptions = {}, drop = [], put = [] }) {
  if (empty) [memory.descriptions, memory.totals].forEach((one) => one.clear());
  changeInMemory(put, drop);
  Object.entries(descriptions).forEach(([key, fields]) => memory.descriptions.set(key, fields));
  if (isLater(clock, memory.remembered.get('clock'))) memory.remembered.set('clock', clock);
  memory.remembered.set('sync', sync);
}

/** Begin with a business: the phone's id there, where the exchange stands, the outbox anew, and the code to be paired again by.
    Without one (`sync` null) all that was pulled goes, too.
    @param {string} device
    @param {Standing | null} sync
    @param {OwnChange[]} outbox
    @param {string | null} again */
export async function keepPairing(device, sync, outbox, again = null) {
  await write(ALL_STORES, 'strict', (tx) => {
    const remembered = tx.objectStore('remembered');
    const emptied = sync ? [] : PULLED.map((name) => tx.objectStore(name).clear());
    const known = Object.entries({ device, sync, again }).map(([key, value]) => remembered.put(value, key));
    return [...emptied, refillOutbox(tx, outbox), ...known];
  });
  otherWindows.postMessage('paired');
  await loadMemory();
  await notify(null);
}
