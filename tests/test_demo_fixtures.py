"""The demo's files are records as the core takes them, and agree with each other."""

import json
from pathlib import Path

import pytest

from backend.core.records.checking import check, kind_named

NO_ELASTIC = {"piece": {"elastic": None}}
FIXTURES = Path(__file__).parent.parent / "demo_fixtures"


def load(name):
    return json.loads((FIXTURES / name).read_text(encoding="utf-8"))


@pytest.mark.parametrize("kind, file", [("piece", "sizes.json"), ("cloth", "cloths.json")])
def test_sizes_and_cloths_are_whole_records(kind, file):
    fields = {field.name for field in kind_named(kind).fields} - {"archived"}
    for record in load(file):
        # which elastic is in a size is asked where there are several
        assert check(kind, record, True) == NO_ELASTIC.get(kind, {}) | record | {"archived": False}
        assert record.keys() | NO_ELASTIC.get(kind, {}).keys() == fields


@pytest.mark.parametrize(
    "kind, file, part",
    [("thread", "making", "threads"), ("supply", "making", "supplies"), ("overhead", "costing", "overheads")],
)
def test_what_she_sews_with_and_pays_for_are_records(kind, file, part):
    for record in load(f"{file}.json")[part]:
        told = check(kind, record, True)
        assert {name: told[name] for name in record} == record


def test_her_methods_are_records_and_what_she_buys_is_named():
    making, costing = load("making.json"), load("costing.json")
    for method in making["methods"]:
        steps = [{name: step[name] for name in step if name != "seconds"} for step in method["steps"]]
        assert len(check("method", {"name": method["name"], "steps": steps}, True)["steps"]) == len(steps)
        assert all(step["seconds"] > 0 for step in method["steps"])
    assert set(costing["bought"]["supplies"]) == {supply["name"] for supply in making["supplies"]}
    assert load("year.json")["pieces_of_a_batch"] % making["tray"] == 0


def test_what_is_told_of_her_business_and_of_today_is_of_records():
    stall, costing = load("stall.json"), load("costing.json")
    told = {"name": stall["business"], "address": stall["address"], "per_km": costing["per_km"]}
    told |= load("making.json")["bench"] | {"currency": load("prices.json")["currency"]}
    assert told.items() <= check("business", told, True).items()
    year = load("year.json")
    booking = year["today"]["booking"] | {"days": ["2026-01-01"]}
    assert booking.items() <= check("booking", booking, True).items()
    assert sum(row["share"] for row in year["weather"]) == 100
    assert all(row["percent"] > row["give_or_take"] for row in year["weather"])


def test_her_elastic_is_a_record():
    elastic = load("elastic.json")
    told = check("elastic", elastic, True)
    assert {name: told[name] for name in elastic} == elastic


def test_every_size_has_a_price_and_every_offer_saves_something():
    told = load("prices.json")
    assert list(told["prices"]) == [size["name"] for size in load("sizes.json")]
    for offer in told["offers"]:
        assert 0 < offer["price"] < offer["n"] * told["prices"][offer["size"]]


def test_money_is_whole_cents_and_a_share_is_a_percentage():
    for market in load("markets.json"):
        told = check("market", market, True)
        assert {name: told[name] for name in market} == market
    stall, prices = load("stall.json"), load("prices.json")
    assert sum(row["value"] * row["count"] for row in stall["float"]) == prices["float"]
