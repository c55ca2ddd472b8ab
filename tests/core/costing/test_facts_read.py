"""What is gathered for sums of money is what they read: no kind more, and none less."""

import pytest

from backend.core.costing.cost_of_goods import cost_of_goods
from backend.core.costing.facts_read import FACTS_READ, with_voids
from backend.core.costing.goods_costs import goods_costs
from backend.core.deciding.next_sewing import next_sewing
from backend.core.records.recorded import Recorded
from backend.core.reviewing.year_told import year_told
from tests.core.costing.one_batch import DAY, FACTS, RECORDS
from tests.core.ids import named

PRODUCT = named("g1")
BOOKING = {named("k1"): {"name": "Quay", "days": ["2026-05-16"], "opens": "09:00", "closes": "15:00"}}
STOCK = [{"product": PRODUCT, "size": None, "place": "home", "quantity": 3, "counted_at": None}]
ASKED = {
    "goods_costs": lambda: goods_costs(FACTS, RECORDS),
    "cost_of_goods": lambda: cost_of_goods(FACTS, RECORDS, [PRODUCT], DAY),
    "ledger": lambda: year_told(FACTS, RECORDS, [], {}, "2026", DAY),
    "next_sewing": lambda: next_sewing(
        FACTS, [], {**RECORDS, "booking": BOOKING}, {PRODUCT: 46.08}, STOCK, [], DAY, {"guess": 40}
    ),
}
# laps alone tell how long she sews; time that was written down passes by
PASSING = {"next_sewing": {"work-time"}}


@pytest.mark.parametrize("name", FACTS_READ)
def test_the_kinds_that_are_declared_as_read_are_those_that_are_read(name, monkeypatch):
    found, of = [], Recorded.of
    monkeypatch.setattr(Recorded, "of", lambda self, kind: found.append(kind) or of(self, kind))
    assert ASKED[name]()
    assert FACTS_READ[name] == with_voids(*[kind for kind in FACTS_READ[name] if kind in found])
    assert set(found) - PASSING.get(name, set()) <= set(FACTS_READ[name])


def test_what_says_that_one_never_happened_is_read_with_it():
    assert with_voids("cut", "wage-set") == ["cut", "wage-set", "cut-void", "left-out"]
