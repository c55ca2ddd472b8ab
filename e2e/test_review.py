"""A day looked back on with no signal: its report, its cash boxes, its file and its printed page."""

import csv
import io
import json
from collections import Counter
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import expect

from .phone import ZONE
from .shop import act, ask, exchange
from .stall import EACH, Stall, open_on_the_spot
from .test_accessible import everything_is_reached
from .test_printing import controls_in_print, printed

LAWN, CHECK = ("Everyday", "Seagrass lawn"), ("Everyday", "Harbour check")
GRAND = ("Grand", "Seagrass lawn")


class Day:
    """A day at the stall, and a ledger of its own, as a person would keep one on paper."""

    def __init__(self, phone):
        self.phone = phone
        self.stall = Stall(phone)
        self.stall.count()
        open_on_the_spot(phone.screen)
        self.day = ask(phone, "clock", "today")
        [self.booking] = [one["id"] for one in ask(phone, "records", "records", "booking")]
        self.at = {"day": self.day, "booking": self.booking, "place": self.stall.place}
        self.paid, self.sold, self.money = Counter(), Counter(), Counter()
        self.left = Counter({name: EACH for name in self.stall.product})
        self.box = 4000
        self.sales = self.pieces = 0

    def sell(self, payment, *lines, offers=(), off=0, **more):
        """Sell lines of (what, quantity, total); returns the sale's id."""
        amount = sum(total for _, _, total in lines)
        rows = [
            {"product": self.stall.product[what], "quantity": quantity, "total": total}
            | {"unit_price": {"Everyday": 600, "Petite": 450, "Grand": 900}[what[0]]}
            for what, quantity, total in lines
        ]
        box = self.stall.box if payment == "cash" else None
        sale = {
            **self.at,
            "box": box,
            "lines": rows,
            "amount": amount,
            "payment": payment,
            "off": off,
            **more,
        }
        for what, quantity, total in lines:
            self.sold[what] += quantity
            self.left[what] -= quantity
            self.money[what] += total
            self.pieces += quantity
        self.sales += 1
        self.paid[payment] += amount
        self.box += amount if payment == "cash" else 0
        return act(self.phone, "state", "sale", {**sale, "offers": list(offers)})

    def give_back(self, sale, what, amount, goods):
        """Give cash back for one piece of a sale."""
        line = {"product": self.stall.product[what], "quantity": 1, "total": amount}
        refund = {**self.at, "box": self.stall.box, "sale": sale, "lines": [line], "amount": amount}
        act(
            self.phone, "state", "refund", refund | {"payment": "cash", "goods": goods, "reason": "too tight"}
        )
        self.paid["cash"] -= amount
        self.money[what] -= amount
        self.box -= amount
        self.left[what] += goods == "table"

    def run(self):
        """Live the day: offers, a discount, a void, refunds, a swap, what was spoilt and asked for."""
        offer = {"offer": self.stall.offer, "times": 1, "saving": 300}
        first = self.sell("cash", (LAWN, 2, 1000), (CHECK, 1, 500), offers=[offer])
        self.sell("card", (GRAND, 1, 850), off=50, reason="a regular")
        self.sell("other", (LAWN, 1, 600))
        grand = self.sell("cash", (GRAND, 2, 1800))
        self.give_back(first, CHECK, 500, "table")
        self.give_back(grand, GRAND, 900, "spoilt")
        self.sell("none", (LAWN, 1, 0), returned=[{"product": self.stall.product[CHECK], "quantity": 1}])
        self.left[CHECK] += 1
        # a sale that never happened is in no figure: not noted
        line = {"product": self.stall.product[GRAND], "quantity": 1, "unit_price": 900, "total": 900}
        sale = {**self.at, "box": self.stall.box, "lines": [line], "amount": 900, "payment": "cash"}
        void = act(self.phone, "state", "sale", sale)
        act(self.phone, "state", "void", {"day": self.day, "sale": void, "reason": "wrong tile"})
        aside = {"day": self.day, "place": self.stall.place, "quantity": 2, "reason": "spoilt"}
        act(self.phone, "state", "set-aside", aside | {"product": self.stall.product[LAWN]})
        self.left[LAWN] -= 2
        act(self.phone, "state", "asked-for", self.at | {"product": self.stall.product[GRAND]})
        box = {"day": self.day, "booking": self.booking, "box": self.stall.box}
        act(self.phone, "state", "cash-count", box | {"moment": "float", "amount": 4000})
        return self


def lived_day(phone):
    return Day(phone).run()


@pytest.fixture
def ground():
    return lived_day


@pytest.fixture
def day(phone):
    """A day at the stall on a phone that can reach nobody."""
    return phone.ground


@pytest.fixture
def page(phone):
    return phone.screen.page


def report(day):
    """Open the day's report from Review, and wait until what was left is there, too."""
    page = day.phone.screen.open("/review").page
    page.get_by_role("link", name="The day's report").tap()
    expect(page.locator("[data-whole=true]")).to_be_visible()
    return page


def figures(page, part):
    """Read the rows of a part of the report: {what it is about: [figures]}."""
    rows = page.locator(f'[data-part="{part}"] tbody tr').all()
    return {row.get_attribute("data-about"): json.loads(row.get_attribute("data-figures")) for row in rows}


def cash_up(day):
    """Open the count of the day's cash box from Review."""
    page = day.phone.screen.open("/review").page
    page.locator("[data-box]").get_by_role("link", name="Cash-up").tap()
    page.locator("[data-coin]").first.wait_for()
    return page


def count(page, amount):
    """Count an amount in as few notes and coins as there are."""
    page.locator("[data-coin]").first.wait_for()
    for field in page.locator("[data-coin]").all():
        value = int(field.get_attribute("data-coin"))
        if amount >= value:
            field.locator("input").fill(str(amount // value))
            amount %= value
    assert amount == 0


# The report


def test_the_report_is_what_was_noted_beside_it(phone, page, day):
    page = report(day)
    taken = sum(day.paid.values())
    expect(page.locator(f'.review-figure[data-takings="{taken}"]')).to_be_visible()
    sold = f"{day.sales} sales, {day.pieces} pieces"
    expect(page.locator(".review-report > details .label")).to_have_text(sold)
    times = {"cash": 2, "card": 1, "other": 1, "none": 1}
    paid = {name: [times[name], day.paid[name]] for name in times}
    assert figures(page, "How it was paid") == paid
    products = {day.stall.product[what]: what for what in day.stall.product}
    assert {products[about]: row for about, row in figures(page, "By product").items()} == {
        what: [day.sold[what], day.left[what], day.money[what]] for what in day.stall.product
    }
    assert figures(page, "Offers and discounts") == {day.stall.offer: [1, -300], "off": [1, -50]}
    assert figures(page, "Swapped, and left without money") == {"swaps": [1], "spoilt": [2]}
    undone = page.locator('[data-part="Void, and given back"] tbody tr').all()
    assert [json.loads(row.get_attribute("data-figures")) for row in undone] == [
        [1, 900],
        [1, -500],
        [1, -900],
    ]
    expect(page.locator('[data-part="By product"]')).to_contain_text("2 set aside")
    expect(page.locator('[data-part="By product"]')).to_contain_text("1 asked for, none left")


def test_hours_are_those_of_the_clock_on_the_wall(phone, page, day):
    facts = ask(phone, "facts", "factsOfDay", day.day)
    void = {fact["sale"] for fact in facts if fact["kind"] == "void"}
    wanted = Counter()
    for fact in facts:
        if fact["kind"] in ("sale", "refund") and fact["id"] not in void:
            hour = datetime.fromtimestamp(fact["at"] / 1000, ZoneInfo(ZONE))
            wanted[f"{hour:%H}:00"] += fact["amount"] * (1 if fact["kind"] == "sale" else -1)
    assert {hour: row[1] for hour, row in figures(report(day), "By hour").items()} == wanted


def test_the_hour_that_the_clocks_go_back_over_is_told_twice(new_phone, visited):
    profile, address = visited
    phone = new_phone(address, profile, timezone_id="Europe/Berlin")
    page = phone.switch_on(offline=True).page
    ids = [f"0192f8a0-0000-7000-8000-00000000000{number}" for number in range(3)]
    # 02:30 in summer time, 02:30 in winter time, 12:00
    times = [datetime(2026, 10, 25, 0, 30), datetime(2026, 10, 25, 1, 30), datetime(2026, 10, 25, 11)]
    made = [copied_sale(name, time) for name, time in zip(ids, times, strict=True)]
    phone.screen.open("/review")
    ask(phone, "copies", "takeIn", json.dumps({"format": "boltfair-copy", "schema": 1, "changes": made}))
    phone.screen.open("/review/2026-10-25")
    rows = page.locator('[data-part="By hour"] tbody tr')
    expect(rows).to_have_count(12)
    hours = [row.get_attribute("data-about") for row in rows.all()]
    assert hours == ["02:00", "02:00", *(f"{hour:02}:00" for hour in range(3, 13))]
    sales = [json.loads(row.get_attribute("data-figures"))[0] for row in rows.all()]
    assert sales == [1, 1, *[0] * 9, 1]


def copied_sale(name, time):
    at = int(time.replace(tzinfo=ZoneInfo("UTC")).timestamp() * 1000)
    fields = {"day": "2026-10-25", "place": name, "amount": 600, "payment": "cash"}
    fields["lines"] = [{"name": "Beads", "quantity": 1, "unit_price": 600, "total": 600}]
    return {
        "id": name,
        "kind": "sale",
        "fields": fields,
        "at": at,
        "stamp": f"{at:013}-0000-{name}",
        "schema": 1,
    }


def test_a_figure_opens_to_what_it_is_made_of_and_a_void_leads_to_its_sale(page, day):
    page = report(day)
    page.locator(".review-report > details summary").tap()
    taken = sum(total for total in day.paid.values()) + 1400
    expect(page.locator(".review-report > details .why-told")).to_contain_text(f"€{taken / 100:.2f}")
    expect(page.locator(".review-report > details .why-told")).to_contain_text("-€14.00")
    page.locator('[data-about="void"] a').tap()
    expect(page.locator("[data-voided]")).to_be_visible()


def test_review_lists_the_days_and_opens_on_today(phone, page, day):
    page = phone.screen.open("/review").page
    expect(page.locator("[data-day]")).to_have_attribute("data-day", day.day)
    expect(page.locator("[data-day] h2")).to_have_text("Sandholt Quay, today")
    earlier = {"day": "2026-05-02", "place": day.stall.place, "amount": 700, "payment": "card"}
    line = {"name": "Beads", "quantity": 1, "unit_price": 700, "total": 700}
    act(phone, "state", "sale", earlier | {"lines": [line]})
    row = page.locator('[data-days] [data-day="2026-05-02"]')
    expect(row.locator('[data-takings="700"]')).to_be_visible()
    row.get_by_role("link").tap()
    expect(page.locator('.review-figure[data-takings="700"]')).to_be_visible()


def test_two_markets_of_one_day_have_a_report_each(phone, page, day):
    other = act(phone, "describeNew", "booking", {"name": "Evening fair", "days": [day.day]})
    line = {"name": "Beads", "quantity": 1, "unit_price": 700, "total": 700}
    sale = {"day": day.day, "place": day.stall.place, "booking": other, "lines": [line], "amount": 700}
    act(phone, "state", "sale", sale | {"payment": "card"})
    expect(phone.screen.open("/review").page.locator("[data-day]")).to_have_count(2)
    phone.screen.open(f"/review/{day.day}?booking={day.booking}")
    expect(page.locator(f'.review-figure[data-takings="{sum(day.paid.values())}"]')).to_be_visible()
    page.get_by_role("link", name="Evening fair").tap()
    expect(page.locator('.review-figure[data-takings="700"]')).to_be_visible()
    expect(page.locator("h1")).to_contain_text("Evening fair")


@pytest.mark.parametrize("ground", [None])
def test_before_anything_is_sold_the_way_to_sell_is_shown(phone):
    page = phone.screen.open("/review").page
    page.get_by_role("link", name="Sell", exact=True).first.tap()
    expect(page.locator("h1")).to_have_text("Sell")


# The cash box


def test_a_box_is_counted_blind_then_differs_in_words_and_is_kept(phone, page, day):
    page = cash_up(day)
    expect(page.locator("[data-expected]")).to_have_count(0)
    count(page, day.box - 250)
    expect(page.locator(f'.dock [data-counted="{day.box - 250}"]')).to_be_visible()
    assert f"{day.box / 100:.2f}" not in page.locator("main").inner_text()
    page.locator("[data-all]").tap()
    expect(page.locator('[data-difference="-250"]')).to_have_text("€2.50 short")
    expect(page.locator(f'[data-expected="{day.box}"]')).to_be_visible()
    page.fill("#cash-reason", "wrong change, perhaps")
    page.locator("[data-keep]").tap()
    phone.screen.said("The cash-up is recorded")
    expect(page.locator("main [data-kept]")).to_have_text("on this phone")
    [kept] = [one for one in ask(phone, "facts", "factsOf", "cash-count") if one["moment"] == "cash-up"]
    assert (kept["amount"], kept["box"], kept["booking"]) == (day.box - 250, day.stall.box, day.booking)
    assert kept["reason"] == "wrong change, perhaps"
    assert sum(row["value"] * row["count"] for row in kept["counted"]) == kept["amount"]
    expect(phone.screen.open("/review").page.locator("[data-box]")).to_contain_text("€2.50 short")


def test_a_box_is_told_of_only_as_it_was_counted_last(phone, page, day):
    page = cash_up(day)
    count(page, day.box)
    expect(page.locator(f'.dock [data-counted="{day.box}"]')).to_be_visible()
    with phone.screen.core_held():
        page.locator('[data-coin="200"]').get_by_role("button", name="One €2.00 more").tap()
        page.locator("[data-all]").tap()
        expect(page.locator('[data-coin="200"] input')).to_be_visible()
    expect(page.locator("[data-difference]")).to_have_attribute("data-difference", "200")
    page.locator("[data-keep]").tap()
    phone.screen.said("The cash-up is recorded")
    [kept] = [one for one in ask(phone, "facts", "factsOf", "cash-count") if one["moment"] == "cash-up"]
    assert kept["amount"] == day.box + 200


def test_plus_and_minus_count_coin_by_coin(page, day):
    page = cash_up(day)
    coin = page.locator('[data-coin="200"]')
    for _ in range(3):
        coin.get_by_role("button", name="One €2.00 more").tap()
    coin.get_by_role("button", name="One €2.00 less").tap()
    expect(page.locator('.dock [data-counted="400"]')).to_be_visible()
    expect(coin.locator("input")).to_have_value("2")
    # what is no number changes nothing
    page.locator("[data-coin='50'] input").fill("x")
    page.locator("[data-coin='50'] input").fill("3")
    expect(page.locator('.dock [data-counted="550"]')).to_be_visible()


def test_what_was_counted_is_there_after_the_app_was_killed_in_the_middle(phone, day):
    page = cash_up(day)
    count(page, 1234)
    page.locator("[data-all]").tap()
    page.fill("#cash-reason", "half")
    phone.screen.settle()
    path = page.url.removeprefix(phone.screen.address)
    phone.kill()
    page = phone.switch_on(offline=True).open(path).page
    expect(page.locator(f'[data-difference="{1234 - day.box}"]')).to_be_visible()
    expect(page.locator("#cash-reason")).to_have_value("half")
    page.get_by_role("button", name="Back to the count").tap()
    expect(page.locator('[data-coin="200"] input')).to_have_value("1")
    assert [one["moment"] for one in ask(phone, "facts", "factsOf", "cash-count")] == ["float"]


def test_money_taken_out_counts_and_can_be_taken_back(phone, page, day):
    page = phone.screen.open("/review").page
    page.locator("[data-box]").get_by_role("link", name="In or out").tap()
    page.fill("#moved-amount", "six")
    page.get_by_role("button", name="Record").tap()
    expect(page.locator(".problem")).to_be_visible()
    page.fill("#moved-amount", "6,50")
    page.fill("#moved-reason", "lunch")
    page.get_by_role("button", name="Record").tap()
    phone.screen.said("€6.50 taken out, recorded")
    expect(page.locator("#moved-amount")).to_have_value("")
    assert expected(day) == day.box - 650
    page.get_by_role("button", name="Undo").tap()
    phone.screen.said("Taken back")
    assert expected(day) == day.box
    expect(page.locator("[data-moved]")).to_have_count(2)


def expected(day):
    """What the phone says the box should hold."""
    where = {"day": day.day, "box": day.stall.box}
    return ask(day.phone, "reviewing", "cashUp", where)["expected"]


def test_a_float_is_said_at_the_cash_up_where_it_was_forgotten(phone, page, day):
    page = cash_up(day)
    page.locator("details.more summary").tap()
    page.fill("#float-amount", "50")
    page.locator("[data-money-form=float] button").tap()
    phone.screen.said("€50.00 float recorded")
    expect(page.locator("details.more summary")).to_have_text("€50.00 float")
    assert expected(day) == day.box + 1000


def test_what_is_sold_after_the_count_is_told_apart_and_it_can_be_counted_again(phone, page, day):
    page = cash_up(day)
    count(page, day.box)
    page.locator("[data-all]").tap()
    expect(page.locator('[data-difference="0"]')).to_have_text("Exact")
    page.locator("[data-keep]").tap()
    phone.screen.said("The cash-up is recorded")
    day.sell("cash", (LAWN, 1, 600))
    expect(page.locator('[data-since="600"]')).to_be_visible()
    expect(page.locator('[data-difference="0"]')).to_be_visible()
    page.get_by_role("button", name="Count it again").tap()
    # who thinks better of it has the last count again
    page.locator("[data-keep-last]").tap()
    expect(page.locator('[data-since="600"]')).to_be_visible()
    page.get_by_role("button", name="Count it again").tap()
    count(page, day.box)
    page.locator("[data-all]").tap()
    expect(page.locator('[data-difference="0"]')).to_be_visible()


def test_a_box_is_counted_by_keyboard_alone(phone, page, day):
    page = cash_up(day)
    # from the top of the page, not from where the last tap was
    phone.screen.reload()
    page.locator("[data-coin]").first.wait_for()
    everything_is_reached(phone.screen)
    phone.screen.tab_to(page.locator('[data-coin="200"] input'))
    page.keyboard.type("7")
    expect(page.locator('.dock [data-counted="1400"]')).to_be_visible()
    for button in ("[data-all]", "[data-keep]"):
        phone.screen.tab_to(page.locator(button))
        page.keyboard.press("Enter")
    phone.screen.said("The cash-up is recorded")


# Other phones


def test_two_phones_fill_one_box_and_a_helper_counts_it_without_seeing_costs(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    day = Day(imke).run()
    act(imke, "edit", "booking", day.booking, {"fee": 4711, "fee_percent": 5})
    exchange(imke, joss)
    day.phone = joss
    day.sell("cash", (LAWN, 1, 600))
    exchange(joss, imke)
    assert expected(day) == day.box
    page = cash_up(day)
    count(page, day.box)
    page.locator("[data-all]").tap()
    expect(page.locator('[data-difference="0"]')).to_be_visible()
    page.locator("[data-keep]").tap()
    joss.screen.said("The cash-up is recorded")
    exchange(joss, imke)
    whole = report(day).locator("main").inner_text()
    assert "47.11" not in whole
    day.phone = imke
    expect(report(day).locator("[data-box]")).to_contain_text("Exact")
    assert ask(imke, "records", "toCheck") == []


# The file and the page


def test_the_file_holds_the_figures_of_the_screen(page, day, tmp_path):
    page = report(day)
    with page.expect_download() as download:
        page.locator("[data-csv]").tap()
    assert download.value.suggested_filename == f"{day.day}-Sandholt-Quay.csv"
    text = download.value.path().read_text(encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert {row["market"] for row in rows} == {"Sandholt Quay"}
    parts = {row["part"]: [one for one in rows if one["part"] == row["part"]] for row in rows}
    taken = sum(day.paid.values())
    assert [row["amount"] for row in parts["Takings"]] == [f"{taken / 100:.2f}"]
    products = {row["what"]: row for row in parts["By product"]}
    assert {name: (row["pieces"], row["left"], row["amount"]) for name, row in products.items()} == {
        " ".join(what): (str(day.sold[what]), str(day.left[what]), f"{day.money[what] / 100:.2f}")
        for what in day.stall.product
    }
    assert [row["amount"] for row in parts["Green tin"] if row["what"] == "expected"] == [
        f"{day.box / 100:.2f}"
    ]


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_the_report_prints_on_one_page(page, day, tmp_path, format):
    page = report(day)
    assert printed(day.phone.screen, tmp_path, format)[0] == 1
    assert controls_in_print(page) == []


HOURS_AGO = """async (hours) => {
    const { recall, remember } = await import('/data/store/remembered.js');
    const at = Date.now() - hours * 3600000;
    await remember('exchanged', { ...recall('exchanged'), last: Date.now() });
    await remember('phones', recall('phones').map((phone) => ({ ...phone, seen_at: at, unsent: 0 })));
}"""


def test_a_cash_up_says_which_phone_was_not_heard_instead_of_an_alarm(shop, paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    page = imke.screen.page
    box = act(imke, "describeNew", "cash-box", {"name": "Green tin"})
    exchange(imke, joss)
    day = ask(imke, "clock", "today")
    ask(imke, "phones", "askWhoWasHeard")
    # the server cannot be reached any more
    imke.expected.append("ERR_INTERNET_DISCONNECTED")
    imke.context.set_offline(True)
    page.evaluate(HOURS_AGO, 2)
    count_out(imke, day, box)
    told = page.locator("[data-not-heard]")
    expect(told).to_contain_text("Joss's phone last synced")
    expect(page.locator("[data-difference]")).to_contain_text("€5.00 over")
    assert page.locator("[role=status]:has([data-difference])").get_attribute("data-allowed") is None
    page.evaluate(HOURS_AGO, 0)
    count_out(imke, day, box)
    expect(page.locator("[role=status]:has([data-difference])")).to_have_attribute("data-allowed", "false")
    expect(told).to_have_count(0)
    exchange(joss)
    joss.expected.append("ERR_INTERNET_DISCONNECTED")
    joss.context.set_offline(True)
    count_out(joss, day, box)
    expect(joss.screen.page.locator("[data-not-heard]")).to_contain_text("This phone last synced")


def count_out(phone, day, box):
    """Count five euros in a box that should hold none, up to where the difference is told."""
    page = phone.screen.open(f"/review/{day}/cash/{box}").page
    page.locator("[data-coin], [data-difference]").first.wait_for()
    if not page.locator("[data-difference]").count():
        page.locator('[data-coin="500"] input').fill("1")
        page.locator("[data-all]").tap()
    page.locator("[data-difference]").wait_for()


@pytest.mark.parametrize("ground", [None])
def test_earlier_days_are_read_once_however_often_they_are_asked_for(phone):
    """Each tap would begin anew with more days, and what is read for the one before would be lost."""
    made = Stall(phone)
    line = {"product": made.product[GRAND], "quantity": 1, "unit_price": 900, "total": 900}
    sale = {"place": made.place, "lines": [line], "amount": 900, "payment": "cash"}
    today = datetime.fromisoformat(ask(phone, "clock", "today"))
    days = [f"{today - timedelta(days=ago):%Y-%m-%d}" for ago in range(25)]
    act(phone, "stateAll", [["sale", {**sale, "day": day}] for day in days])
    page = phone.screen.open("/review").page
    shown, earlier = page.locator("[data-days] li"), page.locator("[data-earlier]")
    expect(earlier).to_have_text("Earlier days")
    before = shown.count()
    with phone.screen.core_held():
        earlier.tap()
        expect(earlier).to_be_disabled()
    expect(earlier).to_have_text("Earlier days")
    assert before < shown.count() < 24
    earlier.tap()
    expect(earlier).to_have_count(0)
    assert shown.count() == 24
