"""elastic-rolls: what is cut is what was asked, and HiGHS finds nothing better."""

from random import Random

import pytest
from roll_model import fewest_rolls

from backend.core.catalogue import answer
from backend.core.cutting import elastic_rolls
from backend.core.reading import read

pytestmark = pytest.mark.full


def given_of(lengths, rolls):
    return {
        "lengths": [{"length": length, "quantity": quantity} for length, quantity in lengths],
        "rolls": [{"length": length, "count": count} for length, count in rolls],
    }


def small_plans(count):
    random = Random("rolls")
    for _ in range(count):
        rolls = [
            (random.randint(300, 1000), random.choice([None, None, random.randint(0, 6)]))
            for _ in range(random.randint(1, 3))
        ]
        longest = min(320, max(length for length, _ in rolls))
        lengths = {random.randint(60, longest): random.randint(1, 12) for _ in range(random.randint(1, 5))}
        yield list(lengths.items()), rolls


def check_cutting(lengths, rolls, result):
    """Assert from the definition alone that the patterns are possible and give what was asked."""
    cut = {row["length"]: row["count"] for row in result["unplaced"]}
    used = [0] * len(rolls)
    for pattern in result["patterns"]:
        used[pattern["roll"]] += pattern["times"]
        held = sum(row["length"] * row["count"] for row in pattern["cuts"])
        assert held + pattern["left"] == pytest.approx(rolls[pattern["roll"]][0]) and pattern["left"] >= 0
        for row in pattern["cuts"]:
            cut[row["length"]] = cut.get(row["length"], 0) + row["count"] * pattern["times"]
    assert cut == dict(lengths)
    assert sum(used) == result["rolls_used"] >= result["bound"]
    assert all(most is None or count <= most for count, (_, most) in zip(used, rolls, strict=True))


def test_no_way_of_cutting_takes_fewer_rolls(how_many):
    short = 0
    for lengths, rolls in small_plans(how_many(40, 400)):
        result = answer("elastic-rolls", given_of(lengths, rolls))["result"]
        check_cutting(lengths, rolls, result)
        fewest = fewest_rolls(lengths, rolls)
        if fewest is None:
            short += 1
            assert result["unplaced"]
        else:
            assert result["optimal"] and result["rolls_used"] == result["bound"] == fewest, (lengths, rolls)
            assert not result["unplaced"]
    assert short, "no case where the rolls do not reach"


def test_the_bound_holds_wherever_the_search_is_stopped(how_many):
    for lengths, rolls in small_plans(how_many(10, 60)):
        given = read(elastic_rolls.INPUTS, given_of(lengths, rolls))
        fewest = fewest_rolls(lengths, rolls)
        state = elastic_rolls.start(given)
        done = False
        while not done:
            result, _ = elastic_rolls.best(state)
            check_cutting(lengths, rolls, result)
            assert fewest is None or result["bound"] <= fewest
            done = elastic_rolls.advance(state, 7)


def test_slicing_the_search_never_changes_the_answer(how_many):
    for lengths, rolls in small_plans(how_many(10, 60)):
        given = read(elastic_rolls.INPUTS, {**given_of(lengths, rolls), "steps": 60})
        state = elastic_rolls.start(given)
        for slice_of_steps in (1, 5, 13, 41):
            elastic_rolls.advance(state, slice_of_steps)
        assert elastic_rolls.best(state) == elastic_rolls.work(given)
