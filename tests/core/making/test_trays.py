"""Trays between people: a plan to be followed, between its bound and half as much again as the soonest."""

from random import Random

import pytest
from hypothesis import given as tried_with
from hypothesis import strategies as some

from backend.core.catalogue import answer
from tests.core.making.tray_model import check_plan, soonest

pytestmark = pytest.mark.full


def question(random, most_trays, most_steps, tied=True):
    """Make a batch of few trays, some steps of which are tied to people or machines."""
    trays, people = random.randint(1, most_trays), random.randint(1, 3)
    tray = random.randint(1, 12)
    steps = []
    for number in range(random.randint(1, most_steps)):
        steps.append({
            "name": f"s{number}", "per": "piece" if random.random() < 0.75 else "batch",
            "minutes": random.choice((0.5, 1, 1.3, 2, 3.25)), "allowance": 0,
            "who": random.randint(1, people) if tied and random.random() < 0.4 else 0,
            "machine": random.choice(("", "", "overlocker", "press")) if tied else "",
        })  # fmt: skip
        if steps[-1]["per"] == "batch":
            steps[-1]["minutes"] *= 4
    quantity = max(1, trays * tray - random.randrange(tray))
    handover = random.choice((0, 0.5, 2)) if tied else 0
    return {"quantity": quantity, "tray": tray, "people": people, "handover": handover, "steps": steps}


def test_a_plan_is_between_its_bound_and_half_as_much_again_as_the_soonest(how_many):
    for seed in range(how_many(12, 40)):
        asked = question(Random(f"trays {seed}"), 3, 3)
        result = answer("batch-time", asked)["result"]
        check_plan(asked, result)
        best = soonest(asked, result["makespan"])
        assert result["bound"] <= best + 1e-5, asked
        assert best <= result["makespan"] + 1e-5, asked
        assert result["makespan"] <= 1.5 * best + 1e-5, asked


def test_where_nothing_is_tied_grahams_bound_holds(how_many):
    for seed in range(how_many(8, 30)):
        asked = question(Random(f"graham {seed}"), 3, 3, tied=False)
        result = answer("batch-time", asked)["result"]
        best = soonest(asked, result["makespan"])
        assert result["makespan"] <= (2 - 1 / asked["people"]) * best + 1e-5


@tried_with(some.integers(0, 10**9))
def test_any_plan_can_be_followed(seed):
    asked = question(Random(seed), 6, 7)
    result = answer("batch-time", asked)["result"]
    check_plan(asked, result)
    assert (
        result["bound"]
        <= result["makespan"]
        <= result["alone"] + 1e-6 + asked["handover"] * len(result["order"])
    )
    assert result["alone"] == result["batch_minutes"]
    for person, waiting in enumerate(result["waiting"], 1):
        busy = sum(turn["end"] - turn["begin"] for turn in result["order"] if turn["person"] == person)
        assert waiting + busy == pytest.approx(result["makespan"])


@tried_with(some.integers(0, 10**9))
def test_one_person_alone_never_waits(seed):
    asked = question(Random(seed), 6, 7)
    asked["people"] = 1
    for step in asked["steps"]:
        step["who"] = min(step["who"], 1)
    result = answer("batch-time", asked)["result"]
    assert result["makespan"] == pytest.approx(result["alone"]) == pytest.approx(result["bound"])
    assert result["waiting"] == pytest.approx([0], abs=1e-9)


@tried_with(some.integers(0, 10**9), some.integers(2, 5))
def test_whatever_takes_twice_as_long_is_done_in_twice_the_time(seed, times):
    asked = question(Random(seed), 5, 5)
    result = answer("batch-time", asked)["result"]
    longer = {**asked, "handover": asked["handover"] * times}
    longer["steps"] = [{**step, "minutes": step["minutes"] * times} for step in asked["steps"]]
    assert answer("batch-time", longer)["result"]["makespan"] == pytest.approx(result["makespan"] * times)
