"""Long sums are made before they are asked for, and stand while they are made anew."""

import pytest
from playwright.sync_api import expect

from .phone import PATIENCE_MS
from .shop import act, ask
from .sold import CHECK, Sold, open_next

# what the core is asked for by a name waits until it is let go
HOLD = """(name) => {
  const post = Worker.prototype.postMessage;
  const held = [];
  Worker.prototype.postMessage = function (message) {
    if (message.text?.includes(`"method":"${name}"`)) held.push(() => post.call(this, message));
    else post.call(this, message);
  };
  self.letGo = () => {
    Worker.prototype.postMessage = post;
    held.forEach((ask) => ask());
  };
}"""
# notes what the core is asked for
COUNT = """() => {
  const post = Worker.prototype.postMessage;
  self.asked = [];
  Worker.prototype.postMessage = function (message) {
    const { method, args } = message.text ? JSON.parse(message.text) : {};
    if (method) self.asked.push([method, args]);
    post.call(this, message);
  };
}"""
READ_TWICE = """async () => {
  const { factsIn } = await import('/data/readable.js');
  const fields = { day: '2026-05-02', place: crypto.randomUUID(), size: crypto.randomUUID() };
  const pulled = Array.from({ length: 600 }, (_, n) => ({
    id: crypto.randomUUID(), seq: 1e6 + n, kind: 'asked-for', at: n, fields,
    stamp: `${n}`.padStart(13, '0') + '-0000-phone',
  }));
  return (await Promise.all([factsIn(pulled), factsIn(pulled)])).map((facts) => facts.length);
}"""
DAYS_KEPT = """async (most) => {
  const { total } = await import('/data/store/pulled.js');
  for (const began = Date.now(); Date.now() - began < most; ) {
    const kept = total('answer days-sold');
    if (kept) return JSON.parse(kept.held.text).days.length;
    await new Promise(requestAnimationFrame);
  }
  return null;
}"""

# how many facts there are, told once while one more came that is then taken back, and told again
UNDONE_MEANWHILE = """async (place) => {
  const { keptOf } = await import('/data/kept-answers.js');
  const { state } = await import('/data/actions.js');
  const { ownFacts } = await import('/data/stock.js');
  const { dropChanges } = await import('/data/store/own-changes.js');
  const count = (of) => of.length;
  const all = async () => ownFacts().map(({ id }) => id);
  const more = async () => {
    await state('asked-for', { day: '2026-05-02', place, size: place });
    return all();
  };
  const before = await all();
  const first = await keptOf('probe', [], more, count);
  const made = (await all()).filter((id) => !before.includes(id));
  await dropChanges(made);
  return [first - before.length, (await keptOf('probe', [], all, count)) - before.length];
}"""


@pytest.fixture
def sold(phone):
    """A phone with two market days behind it, offline."""
    return Sold(phone)


def sell_one_more(phone):
    """State the last sale once more."""
    last = ask(phone, "facts", "factsOf", "sale")[0]
    fields = {name: last[name] for name in last if name not in ("id", "kind", "at")}
    act(phone, "state", "sale", fields)


def test_a_year_is_looked_at_ahead_while_nobody_asks(sold, phone):
    page = phone.screen.start_at("/settings").page
    assert page.evaluate(DAYS_KEPT, PATIENCE_MS) == 2


def test_markets_are_listed_with_what_is_known_of_them_while_their_sales_are_added_up(sold, phone):
    phone.context.add_init_script(f"({HOLD})('day_sums')")
    page = phone.screen.start_at("/review/markets").page
    booked = page.locator(f"[data-booked='{sold.market}']")
    expect(booked.get_by_role("heading")).to_have_text("Sandholt Quay")
    expect(booked).to_contain_text("2 bookings until now. The next one is on")
    expect(page.get_by_role("status").first).to_be_visible()
    page.evaluate("letGo()")
    expect(page.locator(f"[data-market='{sold.market}']")).to_be_visible()
    expect(booked).to_have_count(0)


def test_market_days_that_follow_each_other_are_looked_at_together(sold, phone):
    phone.context.add_init_script(f"({COUNT})()")
    page = phone.screen.start_at("/review/next").page
    page.locator("[data-capacity]").wait_for()
    asked = page.evaluate("asked")
    assert [len(args["markets"]) for name, args in asked if name == "sold_at_markets"] == [2]
    # and what all pieces cost in one question, as the same facts tell it
    assert len([name for name, _ in asked if name == "costs_each"]) == 1


def test_nothing_is_added_up_ahead_while_a_screen_waits(sold, phone):
    phone.context.add_init_script(f"({HOLD})('sold_at_markets')")
    page = phone.screen.start_at("/review/next").page
    page.get_by_role("progressbar").wait_for()
    waits = "import('/data/kept-answers.js').then(({ isWaitedFor }) => isWaitedFor())"
    assert page.evaluate(waits)
    page.evaluate("letGo()")
    page.locator("[data-capacity]").wait_for()
    assert not page.evaluate(waits)


def test_facts_that_two_ask_for_at_once_are_looked_at_once(phone):
    phone.context.add_init_script(f"({COUNT})()")
    page = phone.screen.start_at("/settings").page
    assert page.evaluate(READ_TWICE) == [600, 600]
    looked_at = [args["facts"] for name, args in page.evaluate("asked") if name == "unreadable"]
    assert sum(len(facts) for facts in looked_at) == 600


def test_what_was_told_before_a_sale_stands_until_it_is_told_anew(sold, phone):
    page = open_next(phone)
    expect(page.locator("[data-pack]")).to_be_enabled()
    check = f"[data-bring-of='{sold.stall.product['Everyday', CHECK]}']"
    page.locator(check).wait_for()
    phone.screen.settle()
    phone.screen.start_at("/settings")
    sell_one_more(phone)
    phone.context.add_init_script(f"({HOLD})('next_market')")
    phone.screen.start_at("/review/next")
    expect(page.locator("[data-as-before]")).to_be_visible()
    expect(page.locator("[data-from]")).to_have_attribute("data-days", "2")
    # nothing is packed by numbers that may not hold
    expect(page.locator("[data-pack]")).to_be_disabled()
    page.evaluate("letGo()")
    expect(page.locator("[data-as-before]")).to_have_count(0)
    expect(page.locator("[data-pack]")).to_be_enabled()


def test_what_came_while_it_was_told_and_is_undone_is_not_told_again(sold, phone):
    assert phone.screen.page.evaluate(UNDONE_MEANWHILE, sold.stall.size["Everyday"]) == [1, 0]
