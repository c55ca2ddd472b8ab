"""Reports over HTTP: the same figures as the core's on the records that phones sent; files as CSV."""

import csv
import io
from datetime import datetime

import pytest

from backend.api import guard
from backend.core.costing.goods_costs import goods_costs
from backend.core.reviewing.day_sums import day_sums
from backend.core.reviewing.markets_told import markets_told
from backend.core.reviewing.year_told import year_told
from tests.phones import PLACE, Phone, add_business, uuid7

DAY = "2026-05-02"
TERMS = {
    "name": "Quay",
    "fee": 2800,
    "fee_percent": 5,
    "opens": "09:00",
    "closes": "15:00",
    "distance_km": 10,
}


class Sold:
    """What an owner's phone sent: a cloth's cut and batch, a market, two sales of which one is void."""

    def __init__(self, owner):
        self.owner, self.changes = owner, []
        size = self.describe("piece", {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45})
        cloth = self.describe(
            "cloth", {"name": "Lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
        )
        thread = self.describe("thread", {"name": "Sea green", "length": 1000000})
        product = self.describe("product", {"size": size, "cloth": cloth, "price": 600, "group": "Everyday"})
        self.describe(
            "business", {"name": "T", "currency": "EUR", "card_fee": 1.6, "per_km": 30}, owner.business
        )
        sewn = [{"size": size, "cloth": cloth, "product": product, "quantity": 18}]
        batch = self.describe("batch", {"number": "1", "needle": thread, "lines": sewn})
        self.state("purchase", {"cloth": cloth, "length": 2600, "amount": 2314})
        self.state("cut", {"cloth": cloth, "length": 1000, "lines": [{"size": size, "quantity": 18}]})
        made = [{"product": product, "made": 18, "good": 18}]
        self.state("batch-result", {"batch": batch, "place": PLACE, "lines": made})
        self.state("wage-set", {"wage": 1500, "from": DAY})
        booking = self.describe("booking", {"market": self.describe("market", TERMS), "days": [DAY]})
        self.state("expense", {"what": "Parking", "amount": 450, "booking": booking})
        line = {"product": product, "quantity": 5, "unit_price": 600, "total": 3000}
        sale = {"booking": booking, "place": PLACE, "lines": [line], "amount": 3000, "payment": "card"}
        self.state("sale", sale)
        self.state("void", {"sale": self.state("sale", sale)})
        results = owner.exchange(self.changes)["results"]
        assert {result["status"] for result in results} == {"accepted"}

    def describe(self, kind, fields, record=None):
        record = record or uuid7()
        self.changes.append(self.owner.edit(kind, record, fields))
        return record

    def state(self, kind, fields):
        self.changes.append(self.owner.fact(kind, {"day": DAY, **fields}))
        return self.changes[-1]["id"]

    def made_of(self):
        """What the core takes, from what was sent."""
        made = [one for one in self.changes if "record" not in one]
        facts = [one["fields"] | {name: one[name] for name in ("kind", "id", "at")} for one in made]
        records = {}
        for one in self.changes:
            if "record" in one:
                records.setdefault(one["kind"], {})[one["record"]] = one["fields"]
        voids = {fact["sale"]: True for fact in facts if fact["kind"] == "void"}
        return facts, records, day_sums(facts, voids), goods_costs(facts, records)["goods"]


@pytest.fixture
def sold(owner):
    return Sold(owner)


def test_the_report_of_markets_is_what_the_core_says(owner, sold):
    told = owner.ask("GET", "/reports/markets").get_json()
    assert told == markets_told(*sold.made_of(), "2199-01-01")
    [booking] = told["bookings"]
    # 3000 less fee, 5 %, 1.6 %, 2 × 10 km, parking, and 5 of 18 of 1,352,000 of 3,409,744 mm² for 2314
    assert booking["goods"] == 255
    assert booking["profit"] == 3000 - 2800 - 150 - 48 - 600 - 450 - 255


def test_the_report_of_a_year_is_what_the_core_says(owner, sold):
    told = owner.ask("GET", "/reports/year?year=2026").get_json()
    assert told == year_told(*sold.made_of(), "2026", "2026-12-31")
    assert told["months"][4]["takings"] == told["total"]["takings"] == 3000
    assert owner.ask("GET", "/reports/year?year=2025").get_json()["total"]["takings"] == 0


def ms(text):
    return int(datetime.fromisoformat(text).timestamp() * 1000)


def test_a_day_and_a_year_end_where_the_maker_is(owner, sold, monkeypatch):
    monkeypatch.setattr(guard, "now", lambda: ms("2026-12-31T11:30+00:00"))

    def year_at(offset):
        return owner.ask("GET", f"/reports/year?offset_minutes={offset}").get_json()["year"]

    assert owner.ask("GET", "/reports/year").get_json()["year"] == "2026"
    assert [year_at(offset) for offset in (780, 720, -600)] == ["2027", "2026", "2026"]
    markets = owner.ask("GET", "/reports/markets?offset_minutes=780").get_json()
    assert markets == markets_told(*sold.made_of(), "2027-01-01")


def test_the_stock_of_a_year_is_that_at_its_end_where_the_maker_is(owner):
    product = uuid7()
    goods = {"size": uuid7(), "cloth": uuid7(), "price": 600, "group": "Everyday"}
    found = {"place": PLACE, "product": product, "reason": "found", "day": "2025-12-31"}
    owner.exchange([
        owner.edit("product", product, goods),
        owner.fact("set-aside", {**found, "quantity": 7}, ms("2025-12-31T10:00+00:00")),
        owner.fact("set-aside", {**found, "quantity": 4}, ms("2025-12-31T11:30+00:00")),
    ])  # fmt: skip
    for query, pieces in (("", "11"), ("&offset_minutes=780", "7"), ("&offset_minutes=-300", "11")):
        reply = owner.ask("GET", f"/reports/year.csv?year=2025&file=stock{query}")
        [row] = csv.DictReader(io.StringIO(reply.get_data(as_text=True)))
        assert row["pieces"] == pieces


@pytest.mark.parametrize(
    "path",
    [
        "/reports/year?year=99",
        "/reports/year.csv?year=20266",
        "/reports/year.csv?file=x",
        "/reports/markets?offset_minutes=841",
        "/reports/year?offset_minutes=1.5",
    ],
)
def test_a_query_that_is_none_is_refused_by_name(owner, path):
    reply = owner.ask("GET", path)
    assert reply.status_code == 422
    assert list(reply.get_json()["errors"]) == [path.partition("?")[2].partition("=")[0]]


def test_a_year_comes_as_csv_by_its_address_or_by_accept(owner, sold):
    by_address = owner.ask("GET", "/reports/year.csv?year=2026")
    by_accept = owner.ask("GET", "/reports/year?year=2026", Accept="text/csv")
    assert by_address.data == by_accept.data
    assert by_address.content_type == "text/csv; charset=utf-8"
    rows = list(csv.DictReader(io.StringIO(by_address.get_data(as_text=True))))
    assert (rows[-1]["part"], rows[-1]["takings"], rows[-1]["currency"]) == ("year", "30.00", "EUR")


@pytest.mark.parametrize(
    ("file", "told"),
    [
        ("takings", {"taken": "30.00", "by_card": "30.00", "market": "Quay"}),
        ("purchases", {"what": "Lawn", "paid": "23.14"}),
        ("expenses", {"what": "Parking", "paid": "4.50"}),
        ("stock", {"pieces": "13", "cost_each": "0.5097", "value": "6.63"}),
    ],
)
def test_each_file_for_the_books_is_there(owner, sold, file, told):
    reply = owner.ask("GET", f"/reports/year.csv?year=2026&file={file}")
    [row] = csv.DictReader(io.StringIO(reply.get_data(as_text=True)))
    assert {name: row[name] for name in told} == told


def test_another_business_has_reports_of_its_own(app, owner, sold):
    stranger = Phone(app, add_business())
    assert stranger.ask("GET", "/reports/markets").get_json()["bookings"] == []
    assert stranger.ask("GET", "/reports/year?year=2026").get_json()["total"]["takings"] == 0
