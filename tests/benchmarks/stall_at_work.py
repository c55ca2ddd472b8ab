"""A phone at the stall that holds 10,000 sales."""

from e2e.server import Server
from e2e.shop import Shop
from tests.benchmarks.one_line_sales import one_line_sales
from tests.benchmarks.phone_at_work import HERE, PhoneAtWork, fixture, leave_at

SCRIPT = (HERE / "sales.js").read_text(encoding="utf-8")
# as taps would, through the app's own actions: what is sold, its offer, and the open stall
SET_UP = """async ({ stall, sizes, cloths, prices }) => {
  const { describeNew, state } = await import('/data/actions.js');
  const { openStall } = await import('/data/till.js');
  const { newId, today } = await import('/data/clock.js');
  const denominations = stall.denominations.map((value) => ({ value }));
  await describeNew('business', { name: stall.business, currency: prices.currency, denominations });
  const place = await describeNew('place', { name: 'Stall', use: 'stall' });
  const box = await describeNew('cash-box', { name: stall.boxes[0] });
  const booking = await describeNew('booking', { name: 'Sandholt Quay', days: [today()], place });
  const count = { day: today(), session: newId(), place };
  const products = [];
  for (const fields of sizes) {
    const size = await describeNew('piece', fields);
    for (const described of cloths) {
      const cloth = await describeNew('cloth', described);
      const [price, group] = [prices.prices[fields.name], fields.name];
      const product = await describeNew('product', { size, cloth, price, group });
      await state('count-line', { ...count, product, quantity: 40 });
      products.push([product, price]);
    }
  }
  await state('count-close', { ...count, scope: 'all' });
  for (const { name, size, n, price } of prices.offers) {
    await describeNew('offer', { name, groups: [size], n, price });
  }
  await openStall({ booking, place, box });
  return { place, products };
}"""


def stall_at_work(playwright, profile, data, paired):
    """Put 10,000 sales on a phone whose stall is open: sent to the server, or never paired.

    Returns: (profile, address), the server dead.
    """
    with Server(data) as server:
        shop = Shop(server)
        with PhoneAtWork(playwright, profile, shop.address) as phone:
            _sell(phone.visit("/sell"), shop.code()["code"] if paired else None)
        leave_at(playwright, profile, shop.address, "/sell", "[data-left]")
    return profile, shop.address


def _sell(page, code):
    page.evaluate(SCRIPT)
    if code:
        page.evaluate("(code) => exchanging.pair(code)", code)
    files = ("stall", "sizes", "cloths", "prices")
    made = page.evaluate(SET_UP, {name: fixture(f"{name}.json") for name in files})
    sales = one_line_sales(products=made["products"], place=made["place"])
    page.evaluate("(sales) => exchanging.keep(sales)", sales)
    if code:
        page.evaluate("exchanging.timedWithStock()")
