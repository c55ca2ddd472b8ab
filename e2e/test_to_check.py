"""What owners are to look at: records that cannot be read, and what helpers undid or gave back at odds."""

import json

import pytest
from playwright.sync_api import expect

from backend import store
from backend.settings import Settings
from tests.bent import put_past_the_check
from tests.phones import now

from .shop import act, ask, exchange, pair
from .test_two_phones import DAY, a_stall, sell, stock_of, takings_of

HOURS = 3_600_000
LATEST = 253_402_300_799_999
SCREENS = ("/count", "/count/stock", "/count/pack", "/sell/today", "/review", "/make/cuts", f"/review/{DAY}")


def past_the_check(shop, phone, facts):
    """Put facts into the server's log as if that phone had made them before there was a limit."""
    with store.opened(Settings(shop.server.data)), store.writing() as connection:
        return put_past_the_check(connection, shop.business, ask(phone, "clock", "deviceId"), facts)


def bent_facts(place, product):
    """Facts of most kinds, each bent somewhere."""
    line = {"product": product, "quantity": 1, "unit_price": 600, "total": 600}
    sale = {"day": DAY, "place": place, "lines": [line], "amount": 600, "payment": "cash"}
    close = {"day": DAY, "session": place, "place": place, "scope": "all"}
    return [
        ("sale", sale, LATEST + 5),
        ("sale", sale | {"payment": "voucher"}, now()),
        ("sale", sale | {"day": "0000-13-40"}, now()),
        ("sale", sale | {"lines": None}, now()),
        ("refund", sale | {"goods": "eaten"}, now()),
        ("count-close", close | {"scope": "some"}, now()),
        ("count-line", close | {"quantity": "four", "product": product}, now()),
        ("move", {"day": DAY, "from": place, "to": 5, "product": product, "quantity": 1}, now()),
        ("cut", {"day": DAY, "cloth": place, "lines": "none"}, now()),
    ]


def row_of(phone, name, id):
    return phone.screen.open("/settings").page.locator(f'#check [data-{name}="{id}"]')


def test_no_bent_fact_stops_a_screen_and_an_owner_leaves_each_out(shop, paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    place, product = a_stall(imke)
    act(imke, "describeNew", "place", {"name": "Home", "use": "home"})
    sell(imke, place, product, 2)
    exchange(imke, joss)
    ids = past_the_check(shop, joss, bent_facts(place, product))
    good = sell(joss, place, product)
    exchange(joss, imke)
    for phone in (imke, joss):
        for path in SCREENS:
            page = phone.screen.open(path).page
            expect(page.locator("main h1")).to_be_visible()
            expect(page.locator(f'[data-look-at][data-aside="{len(ids)}"]')).to_be_visible()
            expect(page.locator(".notice[data-bad]")).to_be_hidden()
        assert takings_of(phone)["amount"] == 1800
        # of two of them it can be told which goods left, until they are left out
        assert stock_of(phone)[place, product] == -3 - 2
    expect(row_of(joss, "unread", ids[0])).to_contain_text("Sale")
    expect(joss.screen.page.get_by_role("button", name="Leave it out")).to_have_count(0)
    expect(row_of(imke, "unread", ids[1])).to_contain_text("payment")
    expect(row_of(imke, "unread", ids[1])).to_contain_text("Joss's phone")
    for left in range(len(ids), 0, -1):
        rows = imke.screen.page.locator("[data-unread]")
        expect(rows).to_have_count(left)
        rows.first.get_by_role("button", name="Leave it out").tap()
    expect(imke.screen.page.locator("[data-unread]")).to_have_count(0)
    exchange(imke, joss)
    for phone in (imke, joss):
        expect(phone.screen.open("/review").page.locator("[data-days], [data-day]").first).to_be_visible()
        assert ask(phone, "looked-at", "toLookAt")["aside"] == []
        expect(phone.screen.page.locator("[data-look-at]")).to_have_count(0)
        assert takings_of(phone)["amount"] == 1800
        assert stock_of(phone) == {(place, product): -3}
        assert ask(phone, "records", "keptState", good) == "sent"


def test_what_an_owner_finds_right_is_listed_no_more_and_that_is_undone(undone):
    imke, joss, made, _, _ = undone
    row = row_of(imke, "fact", made["alone"])
    row.get_by_role("button", name="It is right").tap()
    expect(row).to_have_count(0)
    imke.screen.page.locator(".notice").get_by_role("button", name="Undo").tap()
    row.get_by_role("button", name="It is right").tap()
    expect(row).to_have_count(0)
    exchange(imke, joss)
    assert set(doubts(imke)) == {made["more"], made["nowhere"]}
    # it stands, and a helper never hears of it
    assert takings_of(imke)["given_back"] == 1201 + 600 + 1201 + 1200
    assert ask(joss, "facts", "factsOf", "found-right") == []


@pytest.fixture
def undone(shop, paired):
    """What a helper undid and gave back, on both phones: (owner, helper, {what: id}, place, product)."""
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    place, product = a_stall(imke)
    exchange(imke, joss)
    sold, kept = sell(joss, place, product, 2), sell(joss, place, product)
    line = {"product": product, "quantity": 1, "total": 600}
    back = {"day": DAY, "place": place, "lines": [line], "payment": "cash", "goods": "spoilt"}
    made = {
        "void": act(joss, "state", "void", {"day": DAY, "sale": kept}),
        "more": act(joss, "state", "refund", back | {"sale": sold, "amount": 1201}),
        "nowhere": act(joss, "state", "refund", back | {"sale": place, "amount": 600}),
        "alone": act(joss, "state", "refund", back | {"amount": 1201}),
        "usual": act(joss, "state", "refund", back | {"amount": 1200}),
    }
    exchange(joss, imke)
    return imke, joss, made, place, product


def doubts(phone):
    return {row["id"]: row["doubt"] for row in ask(phone, "looked-at", "toLookAt")["doubtful"]}


def test_what_a_helper_gave_back_beyond_what_is_usual_is_listed_and_voided_by_a_tap(undone):
    imke, joss, made, _, _ = undone
    assert doubts(imke) == {
        made["more"]: "beyond_sale",
        made["nowhere"]: "sale_unknown",
        made["alone"]: "no_sale",
    }
    assert doubts(joss) == {}
    assert takings_of(imke)["given_back"] == 1201 + 600 + 1201 + 1200
    page = imke.screen.open("/review").page
    expect(page.locator('[data-look-at][data-doubtful="3"]')).to_contain_text("To check")
    page.locator("[data-look-at] a").tap()
    row = page.locator(f'#check [data-fact="{made["alone"]}"]')
    expect(row).to_contain_text("Joss's phone")
    row.get_by_role("button", name="Void").tap()
    expect(row).to_have_count(0)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert takings_of(phone)["given_back"] == 1201 + 600 + 1200


def test_what_a_helper_gave_back_is_listed_after_a_restore_though_an_owners_phone_sent_it_again(
    own_shop, new_phone, tmp_path
):
    shop, imke, joss = own_shop, new_phone(own_shop.address), new_phone(own_shop.address)
    for phone, role in ((imke, "owner"), (joss, "helper")):
        phone.switch_on()
        pair(phone, shop.code(role), role)
    place, product = a_stall(imke)
    exchange(imke, joss)
    shop.console("backup", str(tmp_path / "copy"))
    line = {"product": product, "quantity": 1, "total": 600}
    back = {"day": DAY, "place": place, "lines": [line], "payment": "cash", "goods": "spoilt", "amount": 1201}
    found = {act(joss, "state", "refund", back): "no_sale"}
    # of a sale that is void nothing is left
    sold = sell(joss, place, product, 2)
    found[act(joss, "state", "refund", back | {"sale": sold, "amount": 1200})] = "beyond_sale"
    act(joss, "state", "void", {"day": DAY, "sale": sold})
    exchange(joss, imke)
    assert doubts(imke) == found
    for phone in (imke, joss):
        phone.expected.append("ERR_CONNECTION_REFUSED")
    shop.server.stop()
    shop.console("restore", str(tmp_path / "copy"), "--replace")
    shop.server.start()
    exchange(imke, joss, imke)
    assert doubts(imke) == found
    assert takings_of(imke)["given_back"] == 2401


def test_more_than_a_helper_can_have_sewn_counts_until_an_owner_voids_it(undone):
    imke, joss, made, place, product = undone
    size, cloth = (act(imke, "describeNew", kind, {"name": kind}) for kind in ("piece", "cloth"))
    lines = [{"size": size, "cloth": cloth, "quantity": 24}]
    batch = act(imke, "describeNew", "batch", {"number": "9", "needle": None, "lines": lines})
    exchange(imke, joss)
    result = {"day": DAY, "batch": batch, "place": place}
    before = stock_of(imke)[place, product]

    def finished(pieces):
        line = {"product": product, "made": pieces, "good": pieces}
        return act(joss, "state", "batch-result", {**result, "lines": [line]})

    usual, beyond = finished(24), finished(36)
    person = act(imke, "describeNew", "person", {"name": "Joss"})
    work = {"day": DAY, "what": "sewing", "person": person}
    act(joss, "state", "work-time", {**work, "minutes": 900})
    long = act(joss, "state", "work-time", {**work, "minutes": 90})
    exchange(joss, imke)
    found = doubts(imke)
    assert found[beyond] == "beyond_batch" and found[long] == "beyond_day" and usual not in found
    assert stock_of(imke)[place, product] == before + 60
    row = row_of(imke, "fact", long)
    expect(row).to_contain_text("16.5 h of work by one person on one day: more than 16 h")
    row = row_of(imke, "fact", beyond)
    expect(row).to_contain_text("With it 60 pieces are made of a batch of 24")
    expect(row.get_by_role("link")).to_have_attribute("href", f"/make/batches/{batch}")
    row.get_by_role("button", name="Void").tap()
    expect(row).to_have_count(0)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone)[place, product] == before + 24


def test_a_void_long_after_its_sale_is_listed_and_voided_the_sale_stands_again(shop, undone):
    imke, joss, made, place, product = undone
    assert (takings_of(imke)["amount"], stock_of(imke)[place, product]) == (1200 - 4202, -2)
    long_ago = now() - 40 * HOURS
    line = {"product": product, "quantity": 5, "unit_price": 600, "total": 3000}
    sale = {"day": DAY, "place": place, "lines": [line], "amount": 3000, "payment": "card"}
    [old] = past_the_check(shop, joss, [("sale", sale | {"reason": ""}, long_ago)])
    exchange(joss, imke)
    assert stock_of(imke)[place, product] == -7
    void = act(joss, "state", "void", {"day": DAY, "sale": old, "reason": "by mistake"})
    exchange(joss, imke)
    assert stock_of(imke)[place, product] == -2
    assert doubts(imke)[void] == "late"
    # booked under the day of the sale, whenever it was voided
    report = imke.screen.page.evaluate(
        "async (day) => (await import('/data/reviewing.js')).dayReport(day, null)", DAY
    )
    assert old in json.dumps(report["voids"])
    row = row_of(imke, "fact", void)
    row.get_by_role("button", name="Void").tap()
    expect(row).to_have_count(0)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone)[place, product] == -7
        assert takings_of(phone)["taken"] == 1200 + 3000
    # the other void is a usual one, and stands
    assert made["void"] not in doubts(imke)
