"""Between tap and kept, and between sent and heard: whatever happens, nothing is lost or doubled."""

import random

import pytest
from playwright.sync_api import Error, expect

from .shop import Shop, act, ask, exchange, pair
from .test_two_phones import a_stall, sell, stock_of, takings_of

LINES = "[data-line]:has([data-kept]) .tick strong:first-child"
# a record's head (its check, its length, that it is whole) and less than is said there: LevelDB's log format
TORN = b"\x12\x34\x56\x78" + (200).to_bytes(2, "little") + b"\x01" + b"x" * 50
NOTE_DURABILITY = """() => {
  const { transaction } = IDBDatabase.prototype;
  globalThis.asked = [];
  IDBDatabase.prototype.transaction = function noted(names, mode, options) {
    if (mode === 'readwrite') globalThis.asked.push([[...names], options?.durability]);
    return transaction.call(this, names, mode, options);
  };
}"""


@pytest.mark.full
def test_what_was_shown_as_kept_survives_each_kill(new_phone, visited, how_many):
    """Kill the browser between a tap and what it shows; nothing is claimed about power loss."""
    profile, address = visited
    chance, phone, shown = random.Random(20261125), new_phone(address, profile), set()
    for kill in range(how_many(5, 50)):
        screen = phone.switch_on(offline=True).start_at("/buy/list")
        for name in shown:
            expect(screen.page.locator("[data-line] .tick strong:first-child", has_text=name)).to_have_count(
                1
            )
        screen.page.fill("#add-line", f"thread {kill:02}.")
        screen.page.get_by_role("button", name="Add").tap()
        screen.page.wait_for_timeout(chance.choice([0, 0, 2, 5, 10, 20, 40]))
        shown |= set(screen.page.locator(LINES).all_inner_texts())
        phone.kill()
    screen = phone.switch_on(offline=True).start_at("/buy/list")
    there = screen.page.locator("[data-line] .tick strong:first-child").all_inner_texts()
    assert shown <= set(there)
    assert len(there) == len(set(there))


TURNED = "async () => !(await indexedDB.databases()).some(({ name }) => name === 'boltfair-new-leaf')"


def test_a_kill_amid_a_write_takes_nothing_with_it(phone):
    """Leave Chromium's log as such a kill does: by its broken end it would drop all, two starts later."""

    def add(name):
        # a start waits a second at most to begin a new leaf
        phone.screen.page.wait_for_function(TURNED)
        phone.screen.page.fill("#add-line", name)
        phone.screen.page.get_by_role("button", name="Add").tap()
        expect(phone.screen.page.locator(LINES, has_text=name)).to_have_count(1)

    phone.screen.start_at("/buy/list")
    add("thread, rust")
    phone.kill()
    logs = list(phone.profile.rglob("*.indexeddb.leveldb/*.log"))
    assert logs, "this Chromium keeps databases in another way: is a new leaf still needed?"
    with max(logs).open("ab") as log:
        log.write(TORN)
    phone.switch_on(offline=True).start_at("/buy/list")
    add("thread, teal")
    phone.kill()
    screen = phone.switch_on(offline=True).start_at("/buy/list")
    expect(screen.page.locator("[data-line]")).to_have_count(2)


def test_what_is_shown_as_kept_was_asked_to_be_durable(phone):
    page = phone.screen.start_at("/buy/list").page
    page.evaluate(NOTE_DURABILITY)
    page.fill("#add-line", "thread, rust")
    page.get_by_role("button", name="Add").tap()
    phone.screen.said("On the list")
    # what is made is written with the clock that stamped it; packing what waits is not
    asked = [how for names, how in page.evaluate("asked") if {"outbox", "remembered"} <= set(names)]
    assert asked == ["strict"]


class BadLine:
    """A connection on which requests and replies of the exchange are lost, cut off or repeated.

    Each of these happens once in so many exchanges, in an order of chance.
    """

    def __init__(self, chance):
        self.chance = chance
        self.next = []
        self.did = []

    def __call__(self, route):
        if not self.next:
            self.next = ["lost", "unheard", "cut off", "repeated", "slow", "well", "well"]
            self.chance.shuffle(self.next)
        fault = self.next.pop()
        self.did.append(fault)
        try:
            if fault == "lost":
                route.abort()
                return
            reply = route.fetch()
            if fault == "repeated":
                reply = route.fetch()
            if fault == "unheard":
                route.abort()
            elif fault == "cut off":
                route.fulfill(response=reply, body=reply.body()[: self.chance.randrange(len(reply.body()))])
            else:
                route.fulfill(response=reply)
        except Error:
            # the page went on without waiting for it
            self.did[-1] = "left"


@pytest.mark.full
def test_on_a_bad_line_nothing_is_lost_or_doubled(server, new_phone, known, how_many):
    for seed in range(how_many(1, 4)):
        shop = Shop(server)
        sell_on_a_bad_line(random.Random(seed), shop, [new_phone(shop.address, known) for _ in range(2)])


def sell_on_a_bad_line(chance, shop, phones):
    for name, phone in zip(("Imke's phone", "Joss's phone"), phones, strict=True):
        phone.expected += ["ERR_FAILED", "ERR_CONTENT_LENGTH_MISMATCH"]
        phone.switch_on()
        pair(phone, shop.code(), name)
    place, product = a_stall(phones[0])
    exchange(*phones)
    line, sold = BadLine(chance), 0
    for phone in phones:
        phone.context.route("**/api/v1/sync", line)
    for _ in range(30):
        phone = chance.choice(phones)
        pieces = chance.randint(1, 3)
        sale = sell(phone, place, product, pieces)
        if chance.random() < 0.2:
            act(phone, "state", "void", {"day": "2026-05-02", "sale": sale})
        else:
            sold += pieces
        if chance.random() < 0.5:
            phone.screen.page.evaluate("import('/data/sync.js').then((sync) => sync.syncNow())")
    for phone in phones:
        phone.context.unroute("**/api/v1/sync", line)
    exchange(*phones)
    assert len(set(line.did)) > 3
    for phone in phones:
        assert stock_of(phone) == {(place, product): -sold}
        assert takings_of(phone)["pieces"] == sold
        assert ask(phone, "records", "toCheck") == []
        phone.switch_off()


MUCH = """async (goods) => {
  const { deviceId, newId } = await import('/data/clock.js');
  const { keepChanges } = await import('/data/store/own-changes.js');
  const { recall } = await import('/data/store/remembered.js');
  const fields = { day: '2026-05-02', reason: 'found', quantity: 1, ...goods };
  const changes = Array.from({ length: 2000 }, (_, n) => {
    const [at, stamp] = [1767225600000 + n, `${1767225600000 + n}-0000-${deviceId()}`];
    return { id: newId({ msecs: at }), kind: 'set-aside', fields, at, stamp, schema: 1 };
  });
  await navigator.locks.request('boltfair-sync', () => keepChanges(changes, recall('clock')));
}"""


def test_much_that_waited_goes_out_over_a_bad_line_while_another_phone_sends(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone")
    place, product = a_stall(imke)
    exchange(imke, joss)
    imke.expected += ["ERR_FAILED", "ERR_CONTENT_LENGTH_MISMATCH"]
    line, sold = BadLine(random.Random(1)), []

    def sell_in_between(route):
        sold.append(sell(joss, place, product))
        exchange(joss)
        line(route)

    imke.context.route("**/api/v1/sync", sell_in_between)
    imke.screen.page.evaluate(MUCH, {"place": place, "product": product})
    imke.screen.page.evaluate("import('/data/sync.js').then((sync) => sync.syncNow())")
    exchange(imke)
    imke.context.unroute("**/api/v1/sync", sell_in_between)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone) == {(place, product): 2000 - len(sold)}
        assert ask(phone, "store/own-changes", "ownChanges") == []
