"""Selling at the stall with no signal: two taps a sale, offers by themselves, and everything undone."""

import re
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import expect

from .looks import look
from .phone import ZONE
from .shop import act, ask
from .stall import EACH, Stall, opened_stall

EVERYDAY = ("Everyday", "Harbour check")
LAWN = ("Everyday", "Seagrass lawn")
GRAND = ("Grand", "Seagrass lawn")


@pytest.fixture
def ground():
    return opened_stall


@pytest.fixture
def stall(phone):
    """An open stall on a phone that can reach nobody."""
    made = phone.ground
    phone.screen.page.locator(".sell-tiles").wait_for()
    made.taps = 0
    return made


@pytest.fixture
def page(phone):
    return phone.screen.page


@pytest.fixture
def tap(page, stall):
    """Tap what matches, and count it."""

    def once(selector):
        page.locator(selector).first.tap()
        stall.taps += 1

    return once


def tile(stall, what):
    return f'[data-product="{stall.product[what]}"]'


def total(page, minor):
    expect(page.locator(f'[data-total="{minor}"]')).to_be_visible()


def kept(page):
    """Wait until a sale is shown as kept; returns its id."""
    expect(page.locator(".sell-last-sale [data-kept]")).to_have_text("on this phone")
    return page.locator(".sell-last-sale").get_attribute("data-sale")


def sales(phone):
    return ask(phone, "facts", "factsOf", "sale")


def test_one_item_is_sold_with_two_taps(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    kept(page)
    assert stall.taps == 2
    [sale] = sales(phone)
    assert (sale["amount"], sale["payment"], sale["place"]) == (900, "card", stall.place)
    assert stall.left()[stall.product[GRAND]] == EACH - 1
    expect(page.locator(f"{tile(stall, GRAND)} [data-left]")).to_have_text(f"{EACH - 1} left")


AT = "document.querySelector('[data-discount]').getBoundingClientRect().top"


def test_nothing_moves_under_a_finger_when_the_price_comes_late(phone, page, stall):
    page.locator(tile(stall, GRAND)).tap()
    total(page, 900)
    with phone.screen.core_held():
        page.locator(tile(stall, EVERYDAY)).tap()
        page.locator(tile(stall, LAWN)).tap()
        expect(page.locator('[data-total=""]')).to_be_visible()
        expect(page.locator("[data-pieces='3']")).to_be_visible()
        late = page.evaluate(AT)
    total(page, 2100)
    assert page.evaluate(AT) == late


LINES_AT = "document.querySelector('.sell-basket').getBoundingClientRect().top"


def test_the_room_of_an_offer_is_kept_while_the_price_is_late(phone, page, stall):
    for _ in range(3):
        page.locator(tile(stall, LAWN)).tap()
    total(page, 1500)
    expect(page.locator("[data-offer]")).to_be_visible()
    with phone.screen.core_held():
        page.locator(tile(stall, GRAND)).tap()
        expect(page.locator('[data-total=""]')).to_be_visible()
        # what it saved of the basket before is not said of this one
        expect(page.locator("[data-offer]")).to_be_hidden()
        late = page.evaluate(LINES_AT)
    total(page, 2400)
    expect(page.locator("[data-offer]")).to_be_visible()
    assert page.evaluate(LINES_AT) == late


# does what a browser does that translates a page: where that is allowed, it puts texts of its own for ours
TRANSLATE = """() => {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const texts = [];
  while (walker.nextNode()) texts.push(walker.currentNode);
  for (const text of texts.filter((text) => text.parentElement.translate)) {
    text.replaceWith(Object.assign(document.createElement('font'), { textContent: text.data }));
  }
}"""


def test_a_total_stays_right_in_a_browser_that_would_translate_it(page, stall):
    page.locator(tile(stall, GRAND)).tap()
    total(page, 900)
    page.evaluate(TRANSLATE)
    page.locator(tile(stall, GRAND)).tap()
    expect(page.locator('[data-total="1800"]')).to_contain_text("18.00")


PRICED = """([of, pieces]) => self[of]('price').filter(({ args }) =>
  String(args.basket.lines.map((line) => [line.group, line.quantity])) === String(pieces)).length"""
CHECKED = """([of, payment, amount]) => self[of]('check').filter(({ args: { fields } }) =>
  fields.payment === payment && fields.amount === amount).length"""


def test_what_is_likely_to_be_tapped_next_is_worked_out_before(phone, page, stall, tap):
    phone.screen.listen_to_core()
    tap(tile(stall, GRAND))
    both = [["Grand", 1], ["Everyday", 1]]
    by_card = ["card", 1500]
    page.wait_for_function(PRICED, arg=["foreseen", both])
    tap(tile(stall, EVERYDAY))
    total(page, 1500)
    page.wait_for_function(CHECKED, arg=["foreseen", *by_card])
    tap("[data-pay=card]")
    kept(page)
    # and it was not asked again
    assert page.evaluate(PRICED, ["atOnce", both]) == page.evaluate(CHECKED, ["atOnce", *by_card]) == 0
    assert [sale["amount"] for sale in sales(phone)] == [1500]


def test_three_with_an_offer_and_change_take_at_most_six_taps(phone, page, stall, tap):
    tap(tile(stall, EVERYDAY))
    tap(tile(stall, LAWN))
    tap(tile(stall, EVERYDAY))
    total(page, 1500)
    expect(page.locator(f'[data-offer="{stall.offer}"]')).to_be_visible()
    tap('[data-tendered="2000"]')
    kept(page)
    assert stall.taps <= 6
    expect(page.locator(".sell-change strong")).to_have_text("€5.00")
    [sale] = sales(phone)
    assert (sale["amount"], sale["tendered"], sale["payment"], sale["box"]) == (1500, 2000, "cash", stall.box)
    assert sale["offers"] == [{"offer": stall.offer, "times": 1, "saving": 300}]
    assert sum(line["total"] for line in sale["lines"]) == 1500
    assert ask(phone, "facts", "takingsOf", sales(phone))["amount"] == 1500


def test_offers_that_cannot_be_used_together_stop_no_sale(phone, page, stall, tap):
    for n in (2, 4, 5):
        offer = {"name": f"{n} Everyday", "groups": ["Everyday"], "n": n, "price": 1100}
        act(phone, "describeNew", "offer", offer)
    for _ in range(3):
        tap(tile(stall, EVERYDAY))
    total(page, 1800)
    expect(page.locator("[data-full]")).to_be_visible()
    tap("[data-pay=card]")
    kept(page)
    [sale] = sales(phone)
    assert (sale["amount"], sale["offers"]) == (1800, [])


def test_an_offer_that_does_not_say_what_it_gives_stops_no_other(phone, page, stall, tap):
    fields = {"name": "Two Everyday", "groups": ["Everyday"], "n": 2, "price": 1100}
    other = act(phone, "describeNew", "offer", fields)
    # as one that an earlier version let through
    act(phone, "edit", "offer", other, {"price": None})
    phone.screen.open("/sell")
    for _ in range(3):
        tap(tile(stall, LAWN))
    total(page, 1500)
    said = page.locator(f'[data-incomplete="{other}"]')
    expect(said).to_contain_text("Two Everyday does not say what it gives, so it is not used")
    said.get_by_role("link").tap()
    phone.screen.wait_for_title("Two Everyday")
    page.fill("[name=price]", "11")
    page.get_by_role("button", name="Save").tap()
    # back where the basket waits
    expect(said).to_have_count(0)
    total(page, 1500)


def test_a_stall_stays_open_past_midnight_until_it_is_looked_at_anew(phone, page, stall, tap):
    day = ask(phone, "clock", "today")
    late = datetime.fromisoformat(f"{day}T23:58").replace(tzinfo=ZoneInfo(ZONE))
    page.clock.install(time=late)
    phone.screen.open("/sell")
    page.clock.set_system_time(late + timedelta(minutes=7))
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    kept(page)
    expect(page.locator(".sell-last-sale [data-undo]")).to_be_visible()
    assert [sale["day"] for sale in sales(phone)] == [day]
    page.get_by_role("link", name="Today's sales").tap()
    expect(page.locator("[data-sales='1']")).to_be_visible()
    page.locator("[data-sale] .to-record").tap()
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    assert [refund["day"] for refund in ask(phone, "facts", "factsOf", "refund")] == [day]
    phone.screen.follow("/sell")
    expect(page.locator(tile(stall, GRAND))).to_be_visible()
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(page.get_by_role("heading", name="Without a booking")).to_be_visible()


def test_tiles_cost_what_another_phone_says_meanwhile(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    total(page, 900)
    tap("[data-empty]")
    act(phone, "edit", "product", stall.product[GRAND], {"price": 750})
    expect(page.locator(f"{tile(stall, GRAND)} .number").first).to_have_text("€7.50")
    tap(tile(stall, GRAND))
    total(page, 750)


def test_a_second_tap_on_cash_is_no_second_sale(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    total(page, 900)
    page.locator("[data-pay=card]").evaluate("(button) => { button.click(); button.click(); }")
    kept(page)
    assert [sale["amount"] for sale in sales(phone)] == [900]


def test_what_is_tapped_while_a_sale_is_being_kept_is_in_the_next_basket(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    total(page, 900)
    both = "(pay, next) => { pay.click(); document.querySelector(next).click(); }"
    page.locator("[data-pay=card]").evaluate(both, tile(stall, LAWN))
    total(page, 600)
    expect(page.locator(".sell-basket li")).to_have_count(1)
    assert [[line["quantity"] for line in sale["lines"]] for sale in sales(phone)] == [[1]]


def test_more_than_a_basket_holds_is_said_and_what_was_there_stays(page, stall, tap):
    beads = {
        "key": "beads",
        "name": "Beads",
        "price": 1,
        "group": None,
        "quantity": 200,
        "off": 0,
        "reason": "",
    }
    full = {**ask(stall.phone, "till", "emptyBasket"), "lines": [beads]}
    # the stall keeps its own basket a moment after it is painted
    stall.phone.screen.open("/settings")
    ask(stall.phone, "till", "keepBasket", full)
    stall.phone.screen.open("/sell")
    total(page, 200)
    tap(tile(stall, LAWN))
    expect(page.locator(".notice[data-bad]")).to_contain_text("too much for one basket")
    total(page, 200)
    tap("[data-pay=card]")
    expect(page.locator(".sell-basket")).to_have_count(0)


def test_one_tap_takes_an_offer_off_and_one_puts_it_back(page, stall, tap):
    for _ in range(3):
        tap(tile(stall, LAWN))
    total(page, 1500)
    tap("[data-offer]")
    total(page, 1800)
    tap("[data-refused]")
    total(page, 1500)


def test_the_basket_is_changed_piece_by_piece(page, stall, tap):
    tap(tile(stall, LAWN))
    page.get_by_role("button", name="One Everyday Seagrass lawn more").tap()
    total(page, 1200)
    page.get_by_role("button", name="One Everyday Seagrass lawn less").tap()
    total(page, 600)
    page.get_by_role("button", name="One Everyday Seagrass lawn less").tap()
    expect(page.locator(".sell-basket")).to_have_count(0)


def test_a_sale_is_undone_at_once_and_counts_for_nothing(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    sale = kept(page)
    tap("[data-undo]")
    phone.screen.said("Undone: the basket is back")
    assert stall.left()[stall.product[GRAND]] == EACH
    assert ask(phone, "facts", "takingsOf", sales(phone))["amount"] == 0
    assert [void["sale"] for void in ask(phone, "facts", "factsOf", "void")] == [sale]


def test_a_sale_is_void_later_and_says_so(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    sale = kept(page)
    page.get_by_role("link", name="Today's sales").tap()
    page.locator(f'[data-sale="{sale}"] .to-record').tap()
    page.fill("#void-reason", "rung up twice")
    page.locator("[data-void]").tap()
    expect(page.locator("[data-voided]")).to_be_visible()
    assert stall.left()[stall.product[GRAND]] == EACH


def test_money_that_was_not_given_back_is_said_later_and_that_is_undone(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    sale = kept(page)
    phone.screen.open(f"/sell/sale/{sale}")
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    phone.screen.open(f"/sell/sale/{sale}")
    page.locator("[data-void-refund]").tap()
    phone.screen.said("Not given back")
    expect(page.get_by_role("button", name="Give back €9.00")).to_be_enabled()
    assert stall.left()[stall.product[GRAND]] == EACH - 1
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    expect(page.locator("[data-given-back]")).to_have_attribute("data-given-back", "900")
    assert stall.left()[stall.product[GRAND]] == EACH


def test_money_given_back_in_a_swap_is_void_in_the_days_sales(phone, page, stall, tap):
    swapped(page, stall, tap, GRAND, EVERYDAY)
    tap("[data-pay=cash]")
    kept(page)
    phone.screen.open("/sell/today")
    page.locator("[data-refund] [data-void-refund]").tap()
    phone.screen.said("Not given back")
    # in the word of a voided sale
    expect(page.locator("[data-refund][data-voided]")).to_contain_text("given back, cash · void")
    assert ask(phone, "facts", "takingsOf", [*ask(phone, "facts", "factsOf", "refund")])["given_back"] == 0


def test_cash_for_a_card_sale_comes_out_of_a_box_that_is_asked_for(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    sale = kept(page)
    tap(".more summary")
    page.get_by_role("button", name="Close the stall on this phone").tap()
    phone.screen.open(f"/sell/sale/{sale}")
    expect(page.locator("#refund-box")).to_have_count(0)
    page.locator("#refund-payment").select_option("cash")
    expect(page.locator("#refund-box")).to_have_value(stall.box)
    for choice in ("#refund-goods", "#refund-payment", "#refund-box"):
        assert look(phone.screen, "cutChoice", choice) is False
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    [refund] = ask(phone, "facts", "factsOf", "refund")
    assert (refund["box"], refund["payment"]) == (stall.box, "cash")


def test_a_part_of_a_sale_is_given_back(phone, page, stall, tap):
    for _ in range(3):
        tap(tile(stall, LAWN))
    tap("[data-pay=cash]")
    sale = kept(page)
    phone.screen.open(f"/sell/sale/{sale}")
    page.get_by_role("button", name="One Everyday Seagrass lawn coming back less").tap()
    page.get_by_role("button", name="Give back €10.00").tap()
    phone.screen.said("€10.00 given back")
    assert stall.left()[stall.product[LAWN]] == EACH - 1
    [refund] = ask(phone, "facts", "factsOf", "refund")
    assert (refund["sale"], refund["amount"], refund["payment"]) == (sale, 1000, "cash")


def test_no_more_goes_back_than_the_pieces_shown_are_worth(phone, page, stall, tap):
    for _ in range(2):
        tap(tile(stall, LAWN))
    tap("[data-pay=cash]")
    phone.screen.open(f"/sell/sale/{kept(page)}")
    give = page.locator("[data-refund] .main")
    expect(give).to_have_text("Give back €12.00")
    with phone.screen.core_held():
        page.get_by_role("button", name="One Everyday Seagrass lawn coming back less").tap()
        expect(page.locator("[data-comes-back='1']")).to_be_visible()
        expect(give).to_be_disabled()
    expect(give).to_have_text("Give back €6.00")
    give.tap()
    phone.screen.said("€6.00 given back")


def test_money_goes_back_once_however_often_it_is_tapped(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    phone.screen.open(f"/sell/sale/{kept(page)}")
    give = page.get_by_role("button", name="Give back €9.00")
    give.evaluate("(button) => { button.click(); button.click(); }")
    phone.screen.said("€9.00 given back")
    phone.screen.settle()
    assert [refund["amount"] for refund in ask(phone, "facts", "factsOf", "refund")] == [900]


def test_what_is_in_a_form_is_taken_once_however_often_it_is_tapped(phone, page, stall, tap):
    tap(".more summary")
    page.fill("#float-amount", "40")
    keep = page.locator("[data-money-form=float] button")
    keep.evaluate("(button) => { button.click(); button.click(); }")
    phone.screen.said("€40.00 float recorded")
    phone.screen.settle()
    assert [count["amount"] for count in ask(phone, "facts", "factsOf", "cash-count")] == [4000]


def test_spoilt_goods_that_come_back_are_not_stock_again(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    phone.screen.open(f"/sell/sale/{kept(page)}")
    page.locator("[name=goods]").select_option("spoilt")
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    assert stall.left()[stall.product[GRAND]] == EACH - 1


def test_what_another_market_sold_comes_back_to_this_stall_and_out_of_its_box(phone, page, stall):
    elsewhere = [f"0192f8a0-0000-7000-8000-00000000010{number}" for number in range(3)]
    where = dict(zip(("booking", "place", "box"), elsewhere, strict=True))
    line = {"product": stall.product[GRAND], "quantity": 1, "unit_price": 900, "total": 900}
    sold = {"day": "2026-05-02", **where, "lines": [line], "amount": 900, "payment": "cash"}
    sale = act(phone, "state", "sale", sold)
    phone.screen.open(f"/sell/sale/{sale}")
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    [refund] = ask(phone, "facts", "factsOf", "refund")
    [booking] = ask(phone, "records", "records", "booking")
    assert [refund[name] for name in where] == [booking["id"], stall.place, stall.box]
    assert stall.left()[stall.product[GRAND]] == EACH + 1


def test_an_even_swap_is_one_record_without_money(phone, page, stall, tap):
    tap(".more summary")
    tap("[data-mode-of=swap]")
    tap(tile(stall, EVERYDAY))
    page.get_by_role("button", name="Done").tap()
    tap(tile(stall, LAWN))
    tap("[data-pay=none]")
    kept(page)
    [sale] = sales(phone)
    assert (sale["amount"], sale["payment"]) == (0, "none")
    left = stall.left()
    assert (left[stall.product[EVERYDAY]], left[stall.product[LAWN]]) == (EACH + 1, EACH - 1)


def swapped(page, stall, tap, back, out):
    """Take one thing back, and put another into the basket."""
    tap(".more summary")
    tap("[data-mode-of=swap]")
    tap(tile(stall, back))
    page.get_by_role("button", name="Done").tap()
    tap(tile(stall, out))


def test_what_came_back_without_anything_going_out_says_what_to_do(page, stall, tap):
    tap(".more summary")
    tap("[data-mode-of=swap]")
    tap(tile(stall, EVERYDAY))
    page.get_by_role("button", name="Done").tap()
    expect(page.locator("[data-no-lines]")).to_contain_text("Tap what goes out for it")
    expect(page.locator("[data-pay]")).to_have_count(0)
    tap(tile(stall, LAWN))
    expect(page.locator("[data-pay=none]")).to_be_visible()


def test_what_comes_back_leads_on_to_what_goes_out_and_the_next_basket_is_a_sale(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap(".more summary")
    tap("[data-mode-of=swap]")
    tap(tile(stall, EVERYDAY))
    # paid while what is tapped still comes back
    total(page, 300)
    tap("[data-pay=card]")
    kept(page)
    expect(page.locator(".mode")).to_have_count(0)
    tap("[data-mode-of=swap]")
    tap(tile(stall, EVERYDAY))
    # a tap on a tile would be another that comes back
    expect(page.locator("[data-no-lines]")).to_have_count(0)
    tap("[data-goes-out]")
    expect(page.locator("[data-no-lines]")).to_be_visible()
    tap(tile(stall, LAWN))
    expect(page.locator(".sell-basket [data-line]")).to_have_count(2)
    tap("[data-pay=none]")
    kept(page)
    assert [len(sale["returned"]) for sale in sales(phone)] == [1, 1]


def test_the_dock_says_what_a_tap_does_in_each_mode(page, stall, tap):
    dock = page.locator(".sell-till")
    expect(dock).to_have_text("Tap what is sold, then how it was paid.")
    tap(".more summary")
    for mode, says in (
        ("asked-for", "Tap what was asked for."),
        ("swap", "Tap what comes back; then Done, and what goes out."),
        ("spoilt", "Tap what is spoilt: one piece a tap."),
        ("given", "Tap what is given away."),
        ("lost", "Tap what is lost."),
    ):
        tap(f"[data-mode-of={mode}]")
        expect(dock).to_have_text(says)
        page.get_by_role("button", name="Done").tap()
    expect(dock).to_have_text("Tap what is sold, then how it was paid.")


def test_more_is_added_to_what_is_sold_from_the_stall(phone, page, stall, tap):
    tap(".more summary")
    page.get_by_role("link", name="Add to what you sell").tap()
    phone.screen.wait_for_title("What you sell")
    page.fill("#cloth-0", "Fog gauze")
    page.locator("[data-add-goods='3']").tap()
    phone.screen.wait_for_title("Sandholt Quay")
    expect(page.locator("[data-product]", has_text="Fog gauze")).to_have_count(3)


def test_the_difference_of_a_swap_is_paid_with_the_same_buttons(phone, page, stall, tap):
    swapped(page, stall, tap, EVERYDAY, GRAND)
    total(page, 300)
    tap('[data-tendered="500"]')
    kept(page)
    [sale] = sales(phone)
    assert (sale["amount"], sale["payment"], sale["tendered"]) == (300, "cash", 500)
    assert [line["total"] for line in sale["lines"]] == [300]
    left = stall.left()
    assert (left[stall.product[EVERYDAY]], left[stall.product[GRAND]]) == (EACH + 1, EACH - 1)
    assert ask(phone, "facts", "takingsOf", sales(phone))["amount"] == 300


def test_the_difference_of_a_swap_is_given_back_with_the_same_buttons_and_undone(phone, page, stall, tap):
    swapped(page, stall, tap, GRAND, EVERYDAY)
    total(page, -300)
    expect(page.locator("[data-pay=cash]")).to_have_text(re.compile("Give back €3.00"))
    # what goes out has no price here; the sum stands at the right, on a line of its own, too
    expect(page.locator(".sell-basket .number")).to_have_text(["", ""])
    row, due = page.locator(".sell-total").bounding_box(), page.locator("[data-total]").bounding_box()
    assert due["x"] + due["width"] == pytest.approx(row["x"] + row["width"], abs=1)
    tap("[data-pay=cash]")
    kept(page)
    left = stall.left()
    assert (left[stall.product[EVERYDAY]], left[stall.product[GRAND]]) == (EACH - 1, EACH + 1)
    day = ask(phone, "facts", "factsOfDay", ask(phone, "clock", "today"))
    assert ask(phone, "facts", "takingsOf", day)["amount"] == -300
    tap("[data-undo]")
    phone.screen.said("Undone: the basket is back")
    total(page, -300)
    left = stall.left()
    assert (left[stall.product[EVERYDAY]], left[stall.product[GRAND]]) == (EACH, EACH)


def test_what_came_back_comes_back_no_second_time(phone, page, stall, tap):
    for _ in range(3):
        tap(tile(stall, LAWN))
    tap("[data-pay=cash]")
    sale = kept(page)
    phone.screen.open(f"/sell/sale/{sale}")
    page.get_by_role("button", name="One Everyday Seagrass lawn coming back less").tap()
    page.locator("[name=payment]").select_option("card")
    page.get_by_role("button", name="Give back €10.00").tap()
    expect(page.locator("[data-given-back]")).to_have_attribute("data-given-back", "1000")
    expect(page.locator("[data-given-back]")).to_contain_text("card")
    expect(page.locator("[data-comes-back]")).to_have_attribute("data-comes-back", "1")
    page.get_by_role("button", name="Give back €5.00").tap()
    expect(page.locator("[data-refund]")).to_have_count(0)
    phone.screen.open("/sell/today")
    expect(page.locator("[data-refund]")).to_have_count(2)
    expect(page.locator("[data-refund]").last).to_contain_text("given back, card")


def test_a_refund_is_undone_and_counts_for_nothing(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    phone.screen.open(f"/sell/sale/{kept(page)}")
    page.get_by_role("button", name="Give back €9.00").tap()
    phone.screen.said("€9.00 given back")
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    phone.screen.said("Not given back")
    expect(page.get_by_role("button", name="Give back €9.00")).to_be_visible()
    assert stall.left()[stall.product[GRAND]] == EACH - 1
    day = ask(phone, "facts", "factsOfDay", ask(phone, "clock", "today"))
    assert ask(phone, "facts", "takingsOf", day)["amount"] == 900


def test_money_is_given_back_without_a_sale_at_a_typed_price(phone, page, stall, tap):
    tap(".more summary")
    page.get_by_role("link", name="Give money back").tap()
    page.locator("[name=what]").select_option("Grand Seagrass lawn")
    page.fill("#back-amount", "7.50")
    page.get_by_role("button", name="Give back").tap()
    phone.screen.said("€7.50 given back")
    [refund] = ask(phone, "facts", "factsOf", "refund")
    assert (refund["sale"], refund["amount"], refund["box"]) == (None, 750, stall.box)
    assert stall.left()[stall.product[GRAND]] == EACH + 1


def test_running_takings_follow_a_refund(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    sale = kept(page)
    tap(".more summary")
    tap(".sell-takings summary")
    expect(page.locator("[data-takings]")).to_have_attribute("data-takings", "900")
    lines = [{"product": stall.product[GRAND], "quantity": 1, "total": 400}]
    back = {"day": ask(phone, "clock", "today"), "sale": sale, "place": stall.place, "lines": lines}
    act(phone, "state", "refund", {**back, "amount": 400, "payment": "cash", "goods": "table"})
    expect(page.locator("[data-takings]")).to_have_attribute("data-takings", "500")


def test_a_void_of_today_is_undone(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    phone.screen.open(f"/sell/sale/{kept(page)}")
    page.locator("[data-void]").tap()
    phone.screen.said("The sale is void")
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    phone.screen.said("Recorded again")
    assert stall.left()[stall.product[GRAND]] == EACH - 1
    assert ask(phone, "facts", "takingsOf", sales(phone))["amount"] == 900


def test_what_leaves_without_money_and_what_is_asked_for_is_undone(phone, page, stall, tap):
    for mode in ("spoilt", "asked-for"):
        page.locator("details.more").evaluate("(more) => { more.open = true; }")
        tap(f"[data-mode-of={mode}]")
        tap(tile(stall, GRAND))
        page.locator(".notice").get_by_role("button", name="Undo").tap()
        phone.screen.said("Grand Seagrass lawn: taken back")
        phone.screen.hush()
    assert stall.left()[stall.product[GRAND]] == EACH
    day = ask(phone, "clock", "today")
    [booking] = ask(phone, "records", "records", "booking")
    report = ask(phone, "reviewing", "dayReport", day, booking["id"])
    assert "1 asked for" not in str(report) and "Spoilt" not in str(report)


def test_undoing_a_sale_brings_its_basket_back(phone, page, stall, tap):
    for _ in range(3):
        tap(tile(stall, LAWN))
    tap("[data-offer]")
    total(page, 1800)
    tap("[data-pay=card]")
    kept(page)
    tap("[data-undo]")
    total(page, 1800)


def test_the_basket_is_emptied_and_that_is_undone(page, phone, stall, tap):
    for thing in (LAWN, LAWN, GRAND):
        tap(tile(stall, thing))
    expect(page.locator("[data-pieces]")).to_have_text("3 pieces")
    tap("[data-empty]")
    expect(page.locator(".sell-basket")).to_have_count(0)
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    total(page, 2100)


def test_a_quantity_is_typed(page, phone, stall, tap):
    tap(tile(stall, LAWN))
    page.get_by_role("textbox", name="Everyday Seagrass lawn").tap()
    page.keyboard.type("7")
    total(page, 2 * 1500 + 600)


def test_one_basket_in_two_windows_is_paid_once(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    total(page, 900)
    page.wait_for_function(
        "async (key) => (await import('/data/till.js')).basket().lines[0]?.key === key",
        arg=stall.product[GRAND],
    )
    phone.screen.settle()
    other = phone.another_tab().open("/sell")
    total(other.page, 900)
    # the disk is busy until both were tapped
    page.evaluate("""async () => {
        const opened = indexedDB.open('boltfair');
        await new Promise((resolve) => opened.onsuccess = resolve);
        const stores = [...opened.result.objectStoreNames];
        const busy = opened.result.transaction(stores, 'readwrite').objectStore(stores[0]);
        self.busy = true;
        const turn = () => { if (self.busy) busy.count().onsuccess = turn; };
        await new Promise((resolve) => busy.count().onsuccess = () => { turn(); resolve(); });
    }""")
    for one in (page, other.page):
        one.locator("[data-pay=card]").evaluate("(button) => button.click()")
    page.evaluate("() => { self.busy = false; }")
    for one in (page, other.page):
        expect(one.locator(".sell-basket")).to_have_count(0)
    phone.screen.settle()
    other.settle()
    assert [sale["amount"] for sale in sales(phone)] == [900]


def test_tiles_keep_their_order_all_day(phone, page, stall, tap):
    order = "(tiles) => tiles.map((tile) => tile.dataset.product)"
    first = page.locator("[data-product]").evaluate_all(order)
    for _ in range(3):
        tap(f'[data-product="{first[-1]}"]')
    tap("[data-pay=card]")
    kept(page)
    phone.screen.open("/sell")
    page.locator("[data-product]").first.wait_for()
    assert page.locator("[data-product]").evaluate_all(order) == first


HIDDEN = """() => [...document.querySelectorAll('[data-pay]')].filter((button) => {
    const { left, right, top, bottom } = button.getBoundingClientRect();
    const [x, y] = [(left + Math.min(right, innerWidth)) / 2, (top + bottom) / 2];
    const outside = top < 0 || bottom > innerHeight || left > innerWidth;
    return outside || !button.contains(document.elementFromPoint(x, y));
}).map((button) => button.textContent.trim())"""


@pytest.mark.parametrize(
    "width, height, text", [(320, 640, 16), (844, 390, 16), (390, 844, 32), (320, 640, 32)]
)
def test_eight_lines_leave_the_pay_buttons_in_sight(phone, page, stall, tap, width, height, text):
    things = [*stall.product.values(), stall.size["Petite"], stall.size["Grand"]]
    assert len(things) == 8
    for thing in things:
        tap(f'[data-product="{thing}"]')
    page.set_viewport_size({"width": width, "height": height})
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": text, "fixed": text}})
    expect(page.locator("[data-pieces]")).to_have_text("8 pieces")
    page.wait_for_function(
        "(text) => getComputedStyle(document.documentElement).fontSize === text", arg=f"{text}px"
    )
    # what a row has no room for is a swipe away: other sums that are handed over, never cash, card or other
    total(page, 5250)
    page.wait_for_function(f"() => ({HIDDEN})().every((words) => words.includes('change'))")


def test_a_row_of_tiles_stays_in_sight_on_a_small_phone(page, stall, tap):
    page.set_viewport_size({"width": 320, "height": 568})
    for what in (EVERYDAY, LAWN, GRAND):
        tap(tile(stall, what))
    total(page, 2100)
    dock = page.locator(".sell-till").bounding_box()
    assert dock["y"] > 6.25 * 16
    # the sum stands beside its word
    assert page.locator(".sell-total").bounding_box()["height"] < 60


def test_a_wrong_clock_is_said_where_times_matter(phone, page, stall):
    page.evaluate("""async () => {
        const { remember } = await import('/data/store/remembered.js');
        await remember('exchanged', { last: Date.now(), offset: -5 * 60000 });
    }""")
    for path in ("/sell", "/count"):
        phone.screen.open(path)
        expect(page.locator("[data-clock-off]")).to_contain_text("5 minutes fast")


@pytest.mark.parametrize(
    "put_away, why", [({"archived": True}, "archived"), ({"active": False}, "not offered")]
)
def test_a_stall_without_tiles_says_why(phone, page, stall, put_away, why):
    for product in stall.product.values():
        act(phone, "edit", "product", product, put_away)
    phone.screen.open("/sell")
    expect(page.locator("[data-nothing]")).to_have_attribute("data-nothing", why)
    expect(page.locator("main a.button.main")).to_be_visible()


def test_stock_that_was_never_counted_has_no_number(phone, page, stall):
    place = act(phone, "describeNew", "place", {"name": "Barn stall", "use": "stall"})
    [booking] = ask(phone, "records", "records", "booking")
    where = {"booking": booking["id"], "place": place, "box": stall.box}
    ask(phone, "till", "openStall", where)
    line = {"product": stall.product[GRAND], "quantity": 2, "unit_price": 900, "total": 1800}
    sold = {"day": ask(phone, "clock", "today"), **where, "lines": [line], "amount": 1800, "payment": "cash"}
    act(phone, "state", "sale", sold)
    phone.screen.open("/sell")
    page.locator(tile(stall, GRAND)).wait_for()
    phone.screen.settle()
    ask(phone, "stock", "stock")
    expect(page.locator("[data-left]")).to_have_count(0)
    expect(page.locator("[data-out]")).to_have_count(0)


def test_a_free_price_and_a_discount_with_its_reason(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap(".more summary")
    page.fill("#free-amount", "3,50")
    page.fill("#free-reason", "button jar")
    page.locator("[data-money-form=free] button").tap()
    total(page, 1250)
    tap("[data-discount]")
    page.fill("#off-amount", "0.50")
    page.fill("#off-reason", "a regular")
    page.locator("[data-money-form=off] button").tap()
    total(page, 1200)
    tap("[data-pay=other]")
    kept(page)
    [sale] = sales(phone)
    assert (sale["amount"], sale["off"], sale["reason"]) == (1200, 50, "a regular")
    assert [line["name"] for line in sale["lines"]] == ["", "button jar"]


def test_one_line_is_made_cheaper_with_its_reason_and_dear_again(phone, page, stall, tap):
    tap(tile(stall, GRAND))
    tap(tile(stall, LAWN))
    tap("[data-discount]")
    page.locator("#off-of").select_option("Grand Seagrass lawn")
    page.fill("#off-amount", "1.50")
    page.fill("#off-reason", "a pulled thread")
    page.locator("[data-money-form=off] button").tap()
    total(page, 1350)
    tap("[data-cheaper]")
    total(page, 1500)
    tap("[data-discount]")
    page.locator("#off-of").select_option("Grand Seagrass lawn")
    page.fill("#off-amount", "2")
    page.fill("#off-reason", "a stain")
    page.locator("[data-money-form=off] button").tap()
    total(page, 1300)
    tap("[data-pay=card]")
    kept(page)
    [sale] = sales(phone)
    assert [(line["total"], line["reason"]) for line in sale["lines"]] == [(700, "a stain"), (600, "")]
    assert (sale["amount"], sale["off"], sale["reason"]) == (1300, 0, "")


def test_what_cannot_be_read_as_money_is_said_beside_it(page, stall, tap):
    tap(".more summary")
    page.fill("#free-amount", "three")
    page.locator("[data-money-form=free] button").tap()
    expect(page.locator("[data-money-form=free] .problem")).to_be_visible()
    expect(page.locator("#free-amount")).to_have_value("three")


def test_a_size_is_sold_without_saying_its_cloth(phone, page, stall, tap):
    tap(f'[data-product="{stall.size["Petite"]}"]')
    tap("[data-pay=cash]")
    kept(page)
    [sale] = sales(phone)
    assert (sale["lines"][0]["size"], sale["lines"][0]["product"]) == (stall.size["Petite"], None)


def test_what_is_sold_out_is_sold_all_the_same_and_asked_for_in_one_tap(phone, page, stall, tap):
    for _ in range(EACH):
        tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    kept(page)
    expect(page.locator(f"{tile(stall, GRAND)} [data-left]")).to_have_text("sold out")
    stall.taps = 0
    tap(f'[data-asked="{stall.product[GRAND]}"]')
    phone.screen.said("Grand Seagrass lawn: asked for, noted")
    assert stall.taps == 1
    assert [fact["product"] for fact in ask(phone, "facts", "factsOf", "asked-for")] == [stall.product[GRAND]]
    tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    kept(page)
    assert stall.left()[stall.product[GRAND]] == -1


def test_spoilt_and_given_pieces_leave_the_stock_without_money(phone, page, stall, tap):
    for reason in ("spoilt", "given", "lost"):
        page.locator("details.more").evaluate("(more) => { more.open = true; }")
        tap(f"[data-mode-of={reason}]")
        tap(tile(stall, GRAND))
        expect(page.locator(".mode")).to_have_count(0)
    expect(page.locator(f"{tile(stall, GRAND)} [data-left]")).to_have_text(f"{EACH - 3} left")
    assert stall.left()[stall.product[GRAND]] == EACH - 3
    assert sales(phone) == []


def test_the_float_and_the_running_takings(phone, page, stall, tap):
    tap(".more summary")
    page.fill("#float-amount", "40")
    page.locator("[data-money-form=float] button").tap()
    phone.screen.said("€40.00 float recorded")
    [float_] = ask(phone, "facts", "factsOf", "cash-count")
    assert (float_["moment"], float_["amount"], float_["box"]) == ("float", 4000, stall.box)
    tap(tile(stall, GRAND))
    tap("[data-pay=card]")
    kept(page)
    tap(".sell-takings summary")
    expect(page.locator('[data-takings="900"]')).to_be_visible()


def test_lunch_is_taken_out_of_the_box_from_the_stall(phone, page, stall, tap):
    tap(".more summary")
    page.get_by_role("link", name="Money in or out of the box").tap()
    page.fill("#moved-amount", "6.50")
    page.fill("#moved-reason", "lunch")
    page.get_by_role("button", name="Record").tap()
    phone.screen.said("€6.50 taken out, recorded")
    [moved] = ask(phone, "facts", "factsOf", "cash-movement")
    assert (moved["direction"], moved["amount"], moved["reason"]) == ("taken out", 650, "lunch")
    [booking] = ask(phone, "records", "records", "booking")
    assert (moved["box"], moved["booking"]) == (stall.box, booking["id"])


def test_what_was_shown_as_kept_is_there_after_the_app_is_killed_and_the_basket_too(phone, stall, tap, page):
    tap(tile(stall, GRAND))
    tap("[data-pay=cash]")
    sale = kept(page)
    tap(tile(stall, LAWN))
    # a basket is on its way to the disk once it is painted
    page.wait_for_function(
        "async (key) => (await import('/data/till.js')).basket().lines[0]?.key === key",
        arg=stall.product[LAWN],
    )
    phone.screen.settle()
    phone.kill()
    phone.switch_on(offline=True).open("/sell")
    total(phone.screen.page, 600)
    assert [fact["id"] for fact in sales(phone)] == [sale]


# in the very moment in which that is offered
PAY_AT_ONCE = """(tile) => {
  const watch = new MutationObserver(() => {
    const pay = document.querySelector('[data-pay=card]:not([disabled])');
    if (!pay) return;
    watch.disconnect();
    pay.click();
  });
  watch.observe(document, { subtree: true, childList: true, attributes: true });
  tile.click();
}"""


def test_a_basket_that_is_paid_before_it_is_painted_does_not_come_back(phone, page, stall):
    page.evaluate("requestAnimationFrame = () => 0")
    page.locator(tile(stall, GRAND)).evaluate(PAY_AT_ONCE)
    kept(page)
    phone.screen.settle()
    phone.kill()
    phone.switch_on(offline=True).open("/sell")
    expect(phone.screen.page.locator(".sell-tiles")).to_be_visible()
    assert ask(phone, "till", "basket")["lines"] == []


@pytest.mark.parametrize("ground", [None])
def test_a_booking_of_today_is_opened_with_one_tap(phone):
    made = Stall(phone)
    market = act(phone, "describeNew", "market", {"name": "Lantern Barn", "place": made.place})
    act(phone, "describeNew", "booking", {"market": market, "days": [ask(phone, "clock", "today")]})
    page = phone.screen.open("/sell").page
    page.get_by_role("button", name="Open Lantern Barn").tap()
    expect(page.locator(".sell-tiles")).to_be_visible()


@pytest.mark.parametrize("ground", [None])
def test_with_nothing_to_sell_the_way_to_the_products_is_shown(phone):
    page = phone.screen.open("/sell").page
    page.get_by_role("link", name="Say what you sell").tap()
    expect(page.locator("h1")).to_have_text("What you sell")
