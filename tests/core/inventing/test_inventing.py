"""Chance, ids and days of an invented year; the year itself is in `tests/demo/`."""

import json
import uuid
from collections import Counter

import pytest

from backend.core import bridge
from backend.core.inventing.chance import Chance
from backend.core.inventing.days import DAYS, market_days
from backend.core.inventing.phones import Ids
from backend.core.numbers.calendar import number_of
from backend.core.numbers.shapes import is_id
from backend.fixtures import read_all

BUSINESS = "0190a000-0000-7000-8000-000000000001"


def ask(method, **args):
    return json.loads(bridge.call(json.dumps({"method": method, "args": args})))


def test_a_draw_is_what_its_recurrence_says():
    # worked out with whole numbers: 171, 172 and 170 times what the seed gave, by their moduli
    chance = Chance(0)
    x, y, z = 171, 172, 170
    assert (chance.x, chance.y, chance.z) == (1, 1, 1)
    whole = x * 30307 * 30323 + y * 30269 * 30323 + z * 30269 * 30307
    assert chance.draw() == pytest.approx(whole % (30269 * 30307 * 30323) / (30269 * 30307 * 30323))


def test_draws_spread_evenly_and_by_weight():
    chance = Chance(20250101)
    tenths = Counter(chance.below(10) for _ in range(20_000))
    assert set(tenths) == set(range(10)) and all(1850 < count < 2150 for count in tenths.values())
    weighed = Counter(chance.by_weight("abc", (6, 3, 1)) for _ in range(10_000))
    assert 5800 < weighed["a"] < 6200 and 2800 < weighed["b"] < 3200
    for wanted in (0, 1, 40, 50):
        found = chance.some_of(50, wanted)
        assert len(set(found)) == wanted and found == sorted(found)


def test_ids_are_version_7_tell_their_time_and_keep_the_order_of_their_making():
    ids = Ids(Chance(7))
    made = [ids.make(at) for at in (1_700_000_000_000, 1_700_000_000_001) for _ in range(300)]
    assert made == sorted(set(made))
    for text in made:
        assert is_id(text)
        found = uuid.UUID(text)
        assert found.version == 7 and found.variant == uuid.RFC_4122
    assert uuid.UUID(made[0]).int >> 80 == 1_700_000_000_000


@pytest.mark.parametrize(
    "today, held",
    [
        ("2026-06-06", "Sandholt Quay Saturday"),
        ("2026-12-13", "Lantern Barn Winter Fair"),
        ("2026-02-01", "Orchard Lane Makers' Morning"),
        ("2026-02-04", None),
    ],
)
def test_a_market_is_held_today_whichever_day_it_is(today, held):
    number = number_of(today)
    found = market_days(read_all()["year"], number)
    [here] = [one for one in found if one.number == number]
    assert here.market == held and here.sales == 0 and here.expected > 50
    assert sum(one.sales for one in found) == 4000
    assert min(one.number for one in found) >= number - DAYS
    assert len({one.number for one in found}) == len(found)


def test_a_fair_of_two_days_is_one_booking_wherever_the_year_ends():
    fair = "Lantern Barn Winter Fair"
    for today, days in (("2026-12-12", 2), ("2026-12-13", 2), ("2026-12-14", 2)):
        found = market_days(read_all()["year"], number_of(today))
        ours = [one for one in found if one.market == fair and one.number > number_of(today) - 60]
        assert len(ours) == days and len({one.booked_as for one in ours}) == 1
        assert [one.stays for one in ours] == [True, False]


def test_a_year_is_lived_a_few_days_at_a_time_and_comes_out_the_same():
    made = []
    for most in (30, 7):
        asked = {"fixtures": read_all(), "business": BUSINESS, "day": "2026-05-06", "offset_minutes": 120}
        left = ask("begin_year", **asked)["answer"]["left"]
        assert left == DAYS
        changes = []
        while left:
            told = ask("live_days", most=most)["answer"]
            changes += told["changes"]
            left = told["left"]
        made.append(changes)
    assert made[0] == made[1]


def test_what_cannot_be_lived_is_refused():
    asked = {"fixtures": read_all(), "business": BUSINESS, "day": "2026-05-36", "offset_minutes": 120}
    assert ask("begin_year", **asked)["problems"][0]["field"] == "day"
    asked["day"] = "2026-05-06"
    ask("begin_year", **asked)
    while ask("live_days", most=30)["answer"]["left"]:
        pass
    assert ask("live_days", most=1)["problems"][0]["rule"] == "nothing_begun"
