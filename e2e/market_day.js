/* Runs in a phone's page, after until.js: sells as fingers do, by tapping what the stall shows, and says what was kept. */
(() => {
  const data = (module) => import(`/data/${module}.js`);
  const shown = (selector) => document.querySelector(selector);

  const tap = async (selector) => (await until(() => shown(`${selector}:not([disabled])`))).click();
  const total = (minor) => until(() => shown(`[data-total="${minor}"]`));
  const lastSale = () => shown('.sell-last-sale')?.dataset.sale;

  const steps = {
    async sell({ keys, refuse, total: minor, pay }) {
      const before = lastSale();
      for (const key of keys) await tap(`[data-product="${key}"]`);
      if (refuse) await tap(`[data-offer="${refuse}"]`);
      await total(minor);
      await tap(`[data-pay="${pay}"]`);
      return until(() => lastSale() !== before && lastSale());
    },
    async undo() {
      await tap('[data-undo]');
      // what was in the basket is in it again
      await until(() => shown('[data-empty]'));
      await tap('[data-empty]');
      await until(() => !shown('[data-empty]'));
    },
    async void({ sale }) {
      return (await data('till')).takeBack('sale', sale, 'never paid');
    },
    async refund({ sale, back, goods }) {
      const [till, { factById }] = [await data('till'), await data('facts')];
      const sold = await factById(sale);
      const worth = await till.refundOf(sold, back, []);
      return { id: await till.refund(sold, worth, sold.payment, goods), amount: worth.amount };
    },
    async swap({ out, back }) {
      const till = await data('till');
      const goods = till.goods();
      const [[one], [other]] = [out, back].map((key) => goods.filter((thing) => thing.key === key));
      const made = till.withPieces(till.withPieces(till.emptyBasket(), one, 1), other, 1, 'returned');
      return (await till.sell(till.stall(), made, await till.priced(made), 'none')).id;
    },
    async state({ kind, fields }) {
      return (await data('actions')).state(kind, fields);
    },
  };

  self.doing = async (list) => {
    const told = [];
    for (const { what, ...how } of list) told.push(await steps[what](how));
    return told;
  };
})();
