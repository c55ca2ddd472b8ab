/* Runs in a phone's page: sales that lie unsent, and exchanges that are timed. */
(() => {
  const data = (module) => import(`/data/${module}.js`);
  const all = (...modules) => Promise.all(modules.map(data));
  let weights = [];

  // what goes over the wire, packed
  const fetchAsIs = window.fetch;
  window.fetch = async (address, how) => {
    const reply = await fetchAsIs(address, how);
    if (address === '/api/v1/sync') weights.push([how.body.size, Number(reply.headers.get('Content-Length'))]);
    return reply;
  };

  // as where there is no signal: no exchange while `what` is done
  const withoutSync = (what) => navigator.locks.request('boltfair-sync', what);

  self.exchanging = {
    /** Pair by a code; nothing is exchanged yet. */
    async pair(code) {
      const { pair } = await data('pairing');
      await withoutSync(() => pair(code, 'A phone', true));
    },

    /** Keep sales as the phone does, at times long past, and pack them as its next start does. */
    async keep(sales) {
      const [{ deviceId, newId }, { keepChanges, packOutbox }, { recall }] = await all('clock', 'store/own-changes', 'store/remembered');
      const changes = sales.map(({ at, fields }) => ({
        id: newId({ msecs: at }),
        kind: 'sale',
        fields,
        at,
        stamp: `${at}-0000-${deviceId()}`,
        schema: 1,
      }));
      await withoutSync(async () => {
        await keepChanges(changes, recall('clock', { ms: 0, counter: -1 }));
        await packOutbox();
      });
    },

    /** Exchange until all is sent and all is taken in. */
    async timed() {
      const [{ syncNow }, { wholeLog }, { ownChanges }, { recall }] = await all('sync', 'store/log', 'store/own-changes', 'store/remembered');
      weights = [];
      const began = performance.now();
      do await syncNow();
      while (ownChanges().length || !recall('sync').cursor);
      const until = performance.now();
      return { ms: until - began, began, weights, count: (await wholeLog()).length };
    },

    /** The same, until the stock is told, too; it is `right` if it is what all facts come to,
        but for goods that are gone. */
    async timedWithStock() {
      const { stock } = await data('stock');
      const { asFact } = await data('readable');
      const { began, ms, count } = await self.exchanging.timed();
      const rows = await stock();
      const until = performance.now();
      const [{ call }, { wholeLog }] = [await import('/core/core-client.js'), await data('store/log')];
      const { answer: held } = await call('fold_stock', {
        facts: (await wholeLog()).filter(({ record }) => record === undefined).map(asFact),
        at: null,
        places: null,
      });
      const { answer: all } = await call('list_stock', { held });
      const there = (stock) => JSON.stringify(stock.filter(({ quantity }) => quantity));
      return { began, until, ms, count, right: rows.length > 0 && there(rows) === there(all) };
    },
  };
})();
