/* What the peers do in the browser; each answers with the ms that it took. */
import { IndexeddbPersistence } from 'y-indexeddb';
import { applyUpdate, Doc } from 'yjs';

// as many at a time as Boltfair's exchange takes
const HOW = { batch_size: 1500, batches_limit: 10 };
const server = (name) => `${location.origin}/db/${name}`;

async function timed(what) {
  const began = performance.now();
  await what();
  return performance.now() - began;
}

async function replicated(adapter, held, replicate) {
  const here = new PouchDB('phone', { adapter });
  if (held.length) await here.bulkDocs(held);
  const ms = await timed(() => replicate(here));
  const { doc_count: count } = await here.info();
  return { ms, count };
}

self.peers = {
  push: (adapter, sales, name) => replicated(adapter, sales, (here) => here.replicate.to(server(name), HOW)),
  pull: (adapter, _, name) => replicated(adapter, [], (here) => here.replicate.from(server(name), HOW)),

  async pullYjs() {
    const doc = new Doc();
    const disk = new IndexeddbPersistence('phone', doc);
    await disk.whenSynced;
    const ms = await timed(async () => {
      applyUpdate(doc, new Uint8Array(await (await fetch('/updates/update.bin')).arrayBuffer()));
      await kept(disk.db);
    });
    return { ms, count: doc.getMap('sales').size };
  },
};

// a transaction begun behind those that write is over after them
function kept(db) {
  return new Promise((resolve, reject) => {
    const tx = db.transaction('updates');
    tx.objectStore('updates').count();
    tx.oncomplete = resolve;
    tx.onerror = reject;
  });
}
