"""Two phones of one business: records go both ways, whatever was made where and when."""

from datetime import date, timedelta

import pytest
import segno
from playwright.sync_api import expect

from tests.chromium import find_chromium

from .scenario import SIZES
from .shop import act, ask, exchange, pair

DAY = "2026-05-02"
ANDROID = (
    "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 "
    "Mobile Safari/537.36"
)


def a_stall(phone):
    """Describe a stall with one product; returns the ids of place and product."""
    place = act(phone, "describeNew", "place", {"name": "Stall", "use": "stall"})
    size = act(phone, "describeNew", "piece", SIZES["Everyday"])
    product = act(phone, "describeNew", "product", {"size": size, "price": 600, "group": "Everyday"})
    return place, product


def sell(phone, place, product, quantity=1, **more):
    """State a sale for cash; returns its id."""
    total = 600 * quantity
    line = {"product": product, "quantity": quantity, "unit_price": 600, "total": total}
    sale = {"day": DAY, "place": place, "lines": [line], "amount": total, "payment": "cash"}
    return act(phone, "state", "sale", sale | more)


def stock_of(phone):
    """Tell how many pieces lie where: {(place, product): pieces}."""
    return {(row["place"], row["product"]): row["quantity"] for row in ask(phone, "stock", "stock")}


def takings_of(phone):
    return ask(phone, "facts", "takingsOf", ask(phone, "facts", "factsOfDay", DAY))


DAYS = """async (latest) => {
  const { daysOfFacts } = await import('/data/facts.js');
  const days = [];
  for await (const [day] of daysOfFacts(latest)) days.push(day);
  return days;
}"""


def test_days_with_facts_are_told_the_latest_first_sent_and_unsent_alike(paired):
    phone = paired("Imke's phone")
    place, product = a_stall(phone)
    days = [str(date(2026, 1, 1) + timedelta(days=2 * number)) for number in range(100)]
    for number, day in enumerate(days):
        # every third day is sent, and some of these have something unsent, too
        if number % 3 == 0:
            sell(phone, place, product, day=day)
    exchange(phone)
    for number, day in enumerate(days):
        if number % 3 or number % 4 == 0:
            sell(phone, place, product, day=day)

    def are_told():
        for number in (99, 60, 59, 0):
            told = phone.screen.page.evaluate(DAYS, days[number])
            assert told == days[number::-1]
            after = days[number + 1] if number < 99 else None
            assert ask(phone, "facts", "nextDayOfFacts", days[number]) == after
        assert ask(phone, "days-with-takings", "daysWithTakings") == days[::-1]

    are_told()
    exchange(phone)
    are_told()


def test_days_of_other_facts_however_many_hold_up_no_look_back(paired):
    phone = paired("Imke's phone")
    place, product = a_stall(phone)
    sell(phone, place, product)
    wanted = {"place": place, "product": product}
    for number in range(40):
        act(phone, "state", "asked-for", {"day": str(date(2030, 1, 1) + timedelta(days=number)), **wanted})
    exchange(phone)
    told = phone.screen.page.evaluate(LOOKED_AT, 1)
    assert [row["day"] for row in told["rows"]] == [DAY] and not told["more"]
    # no day is read of which nothing was taken
    assert told["read"] == [DAY]


LOOKED_AT = """async (most) => {
  const read = [];
  const { getAllKeys } = IDBIndex.prototype;
  IDBIndex.prototype.getAllKeys = function (key, ...more) {
    if (this.name === 'days') read.push(key);
    return getAllKeys.call(this, key, ...more);
  };
  return { ...(await (await import('/data/reviewing.js')).daysTaken(most)), read };
}"""


def test_what_one_phone_describes_and_sells_the_other_sees(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    place, product = a_stall(imke)
    exchange(imke, joss)
    assert [found["name"] for found in ask(joss, "records", "records", "place")] == ["Stall"]
    sell(imke, place, product, 2)
    undone = sell(joss, place, product, 3)
    kept = sell(joss, place, product)
    exchange(joss, imke, joss)
    act(imke, "state", "void", {"day": DAY, "sale": undone})
    exchange(imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone) == {(place, product): -3}
        told = takings_of(phone)
        assert (told["sales"], told["pieces"], told["amount"]) == (2, 3, 1800)
        assert ask(phone, "records", "keptState", kept) == "sent"


def test_a_count_sets_the_stock_on_both_phones(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone")
    place, product = a_stall(imke)
    session = "0192f8a0-0000-7000-8000-000000000001"
    line = {"day": DAY, "session": session, "place": place, "product": product, "quantity": 14}
    sell(imke, place, product)
    exchange(imke, joss)
    act(joss, "state", "count-line", line)
    act(joss, "state", "count-close", {"day": DAY, "session": session, "place": place, "scope": "all"})
    assert stock_of(joss) == {(place, product): 14}
    sell(joss, place, product, 4)
    exchange(joss, imke)
    sell(imke, place, product)
    assert stock_of(imke) == {(place, product): 9}
    exchange(imke, joss)
    assert stock_of(joss) == stock_of(imke)


def test_a_helper_sells_voids_and_gives_back_from_either_phone_and_sees_no_cost(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    place, product = a_stall(imke)
    lawn = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2, "price": 890}
    act(imke, "describeNew", "cloth", lawn)
    hers = sell(imke, place, product, 2)
    exchange(imke, joss)
    [cloth] = ask(joss, "records", "records", "cloth")
    assert cloth["name"] == "Seagrass lawn" and "price" not in cloth
    day = ask(joss, "clock", "today")
    his = sell(joss, place, product, day=day, off=100, reason="a regular", amount=500)
    back = [{"product": product, "quantity": 1, "total": 600}]
    given = {"day": day, "sale": hers, "place": place, "lines": back, "amount": 600, "payment": "cash"}
    act(joss, "state", "refund", {**given, "goods": "table"})
    act(joss, "state", "void", {"day": day, "sale": his})
    exchange(joss, imke)
    assert ask(joss, "records", "toCheck") == []
    for phone in (imke, joss):
        assert stock_of(phone) == {(place, product): -1}


def test_a_phone_that_was_without_signal_sends_what_it_kept_once_there_is_one(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone")
    place, product = a_stall(imke)
    exchange(imke, joss)
    joss.expected.append("ERR_INTERNET_DISCONNECTED")
    joss.context.set_offline(True)
    for _ in range(3):
        sale = sell(joss, place, product)
    assert stock_of(joss) == {(place, product): -3}
    assert ask(joss, "records", "keptState", sale) == "on this phone"
    joss.screen.reload()
    assert ask(joss, "records", "waiting")["count"] == 3
    joss.context.set_offline(False)
    exchange(joss, imke)
    assert stock_of(imke) == stock_of(joss) == {(place, product): -3}


def test_what_a_phone_held_before_is_brought_along(shop, paired, new_phone):
    imke, joss = paired("Imke's phone"), new_phone(shop.address)
    joss.switch_on().open("/settings")
    act(joss, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    pair(joss, shop.code(), "Joss's phone")
    exchange(joss, imke)
    assert [found["name"] for found in ask(imke, "records", "records", "place")] == ["Home shelf"]


def test_a_phone_may_take_what_the_server_has_instead(shop, paired, new_phone):
    imke, joss = paired("Imke's phone"), new_phone(shop.address)
    act(imke, "describeNew", "place", {"name": "Stall", "use": "stall"})
    exchange(imke)
    joss.switch_on().open("/settings")
    act(joss, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    pair(joss, shop.code(), "Joss's phone", bring=False)
    exchange(joss, imke)
    for phone in (imke, joss):
        assert [found["name"] for found in ask(phone, "records", "records", "place")] == ["Stall"]


def test_a_link_with_a_code_fills_it_in(shop, new_phone):
    phone = new_phone(shop.address, user_agent=ANDROID)
    made = shop.code()
    page = phone.switch_on().page
    page.goto(made["link"])
    expect(page.locator("#pair-code")).to_have_value(made["code"])
    expect(page).to_have_url(f"{shop.address}/settings")
    # it opens on pairing, a name is proposed, and one tap pairs
    expect(page.locator("#pair-name")).to_have_value("Android phone")
    pairing = page.get_by_role("button", name="Pair", exact=True)
    expect(pairing).to_be_in_viewport()
    pairing.tap()
    phone.screen.said("Paired")
    assert ask(phone, "sync", "standing")["name"] == "Android phone"


def test_what_was_changed_on_two_phones_is_said_and_may_be_taken_back(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone")
    box = act(imke, "describeNew", "cash-box", {"name": "Green tin", "usual_float": 4000})
    exchange(imke, joss)
    for phone, usual in ((imke, 4500), (joss, 5000)):
        phone.expected.append("ERR_INTERNET_DISCONNECTED")
        phone.context.set_offline(True)
        act(phone, "edit", "cash-box", box, {"usual_float": usual})
    for phone in (imke, joss):
        phone.context.set_offline(False)
        exchange(phone)
    assert ask(joss, "records", "recordById", "cash-box", box)["usual_float"] == 5000
    expect(joss.screen.open("/settings/cash-box").page.locator(".lines")).to_contain_text(
        "changed on two phones"
    )
    clash = joss.screen.open(f"/settings/cash-box/{box}").page.locator("[data-clash]")
    expect(clash).to_contain_text("usual float 45.00 EUR")
    clash.get_by_role("button", name="Use the other").tap()
    joss.screen.said("The other is saved on this phone")
    exchange(joss, imke)
    for phone in (imke, joss):
        assert ask(phone, "records", "recordById", "cash-box", box)["usual_float"] == 4500
    expect(joss.screen.open("/settings/cash-box").page.locator(".lines")).not_to_contain_text("two phones")


def test_a_slow_line_is_not_taken_for_a_wrong_clock(paired):
    imke = paired("Imke's phone")
    for asked, told, heard, offset in (
        (1000, 1000, 1400, 0),  # the server told at once and the answer came slowly
        (1000, 1400, 1400, 0),
        (1000, 1402, 1400, 202),  # told after it was heard: no line explains that
        (1000, 601_200, 1400, 600_000),
        (601_000, 1200, 601_400, -600_000),
    ):
        assert ask(imke, "clock", "offsetOf", asked, told, heard) == offset


def test_the_camera_reads_the_code_that_another_phone_shows(shop, new_phone, tmp_path):
    made = shop.code()
    film = tmp_path / "seen.y4m"
    film.write_bytes(film_of(made["link"]))
    seen = ["--use-fake-device-for-media-stream", f"--use-file-for-fake-video-capture={film}"]
    whole = find_chromium(whole=True)
    if not whole:
        pytest.skip("Chromium's engine alone has no camera, and there is no whole Chromium")
    phone = new_phone(shop.address, arguments=seen, permissions=["camera"], executable_path=whole)
    page = phone.switch_on().open("/settings").page
    page.get_by_role("button", name="Scan the code").tap()
    expect(page.locator("#pair-code")).to_have_value(made["code"])
    expect(page.locator("[data-camera]")).to_have_count(0)
    page.fill("#pair-name", "Imke's phone")
    page.get_by_role("button", name="Pair", exact=True).tap()
    phone.screen.said("Paired")


def test_without_a_camera_the_code_is_typed(shop, new_phone):
    phone = new_phone(shop.address)
    phone.switch_on().open("/settings").page.get_by_role("button", name="Scan the code").tap()
    expect(phone.screen.page.locator(".notice span")).to_contain_text("type the code instead")


def film_of(text, width=640, height=480, scale=8):
    """Film a code: a few frames of YUV4MPEG2, as the browser's pretended camera plays it."""
    rows = [bytes(row) for row in segno.make(text, micro=False).matrix_iter(scale=scale, border=4)]
    light = bytearray(b"\xeb" * (width * height))
    top, left = (height - len(rows)) // 2, (width - len(rows[0])) // 2
    for index, row in enumerate(rows):
        start = (top + index) * width + left
        light[start : start + len(row)] = bytes(16 if dark else 235 for dark in row)
    frame = b"FRAME\n" + bytes(light) + b"\x80" * (width * height // 2)
    return b"YUV4MPEG2 W%d H%d F30:1 Ip A1:1 C420jpeg\n" % (width, height) + frame * 5


def test_what_was_rejected_is_under_to_check_with_its_reason(paired):
    joss = paired("Joss's phone", role="helper")
    place = act(joss, "describeNew", "place", {"name": "Stall", "use": "stall"})
    exchange(joss)
    assert ask(joss, "records", "keptState", place) == "to check"
    # and is not shown as if it held
    assert ask(joss, "records", "records", "place") == []
    checked = joss.screen.open("/settings").page.locator("[data-to-check]")
    expect(checked).to_contain_text("may not be written by a helper")
    checked.get_by_role("button", name="Discard").tap()
    expect(checked).to_have_count(0)


def test_a_phone_that_was_taken_off_says_so_and_keeps_what_it_holds(shop, paired):
    imke = paired("Imke's phone")
    place, product = a_stall(imke)
    exchange(imke)
    imke.expected.append("403 (Forbidden)")
    shop.console("phones", "revoke", ask(imke, "clock", "deviceId"))
    sell(imke, place, product)
    expect(imke.screen.open("/settings").page.locator("[data-standing=revoked]")).to_be_visible()
    assert stock_of(imke) == {(place, product): -1}
    assert ask(imke, "records", "waiting")["count"] == 1
    pair(imke, shop.code(), "Imke's phone")
    exchange(imke)
    assert ask(imke, "records", "waiting")["count"] == 0


def test_after_a_restore_every_phone_starts_over_and_nothing_is_lost(own_shop, new_phone, tmp_path):
    shop, imke, joss = own_shop, new_phone(own_shop.address), new_phone(own_shop.address)
    for phone, role in ((imke, "owner"), (joss, "helper")):
        phone.switch_on()
        pair(phone, shop.code(role), role)
    place, product = a_stall(imke)
    exchange(imke, joss)
    shop.console("backup", str(tmp_path / "copy"))
    sell(imke, place, product)
    sell(joss, place, product)
    exchange(imke, joss, imke)
    for phone in (imke, joss):
        phone.expected.append("ERR_CONNECTION_REFUSED")
    shop.server.stop()
    shop.console("restore", str(tmp_path / "copy"), "--replace")
    shop.server.start()
    exchange(joss, imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone) == {(place, product): -2}
        assert takings_of(phone)["amount"] == 1200


def test_what_a_phone_of_the_first_version_kept_is_all_there(shop, new_phone):
    phone = new_phone(shop.address)
    phone.expected.append("favicon.ico")
    page = phone.switch_on().page
    # any page of the server, without the app: what is there is what the first version left
    page.goto(shop.address + "/healthz")
    page.evaluate(FIRST_VERSION)
    page.goto(shop.address + "/buy/list")
    expect(page.locator("[data-line] strong")).to_have_text("thread, rust")
    assert ask(phone, "store/remembered", "recall", "currency") == "CHF"
    pair(phone, shop.code(), "Imke's phone")
    exchange(phone)
    assert ask(phone, "records", "waiting")["count"] == 0
    assert [line["name"] for line in ask(phone, "records", "records", "list-line")] == ["thread, rust"]


FIRST_VERSION = """async () => {
  const device = '0192f8a0-0000-7000-8000-00000000000d';
  const change = {
    id: '0192f8a0-0000-7000-8000-000000000001', kind: 'list-line',
    record: '0192f8a0-0000-7000-8000-000000000002',
    fields: {
      name: 'thread, rust', for_what: '', quantity: null, length_to_buy: null,
      cost: null, bought: false, archived: false,
    },
    at: 1767225600000, stamp: `1767225600000-0000-${device}`, schema: 1,
  };
  const opening = indexedDB.open('boltfair', 1);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('outbox', { keyPath: 'id' });
    opening.result.createObjectStore('remembered');
  };
  await new Promise((resolve) => { opening.onsuccess = resolve; });
  const tx = opening.result.transaction(['outbox', 'remembered'], 'readwrite');
  tx.objectStore('outbox').add(change);
  tx.objectStore('remembered').put(device, 'device');
  tx.objectStore('remembered').put('CHF', 'currency');
  tx.objectStore('remembered').put({ ms: 1767225600000, counter: 0 }, 'clock');
  await new Promise((resolve) => { tx.oncomplete = resolve; });
  opening.result.close();
}"""
