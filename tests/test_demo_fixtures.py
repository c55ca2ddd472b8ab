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
