"""cutting-layout's search: stopped anywhere it claims nothing wrong, and slices never change the answer."""

from random import Random

import pytest

from backend.core.cutting import cutting_layout
from backend.core.cutting.layout.model import MOST_COST
from backend.core.declaring.reading import read
from tests.core.cutting.plans import fine_plan

pytestmark = pytest.mark.full


def plans(count):
    random = Random("plans")
    for _ in range(count):
        strips = [
            {
                "name": f"strip {number}",
                "length": random.choice([420, 460, 482, 500, 540, 600]),
                "width": random.choice([80, 95, 110, 115.5, 130]),
                "quantity": random.randint(2, 25),
            }
            for number in range(random.randint(1, 4))
        ]
        bolt = {
            "name": "bolt",
            "width": random.choice([1120, 1400, 1500]),
            "squaring": 50,
            "nap": random.random() < 0.3,
        }
        rests = [
            {"name": "rest", "width": random.randint(30, 140) * 10, "length": random.randint(20, 120) * 10}
            for _ in range(random.randint(0, 3))
        ]
        yield read(cutting_layout.INPUTS, {"cloths": [bolt, *rests], "strips": strips, "steps": 4000})


def pieces_of(result):
    laid = [strip["strip"] for cloth in result["cloths"] for row in cloth["rows"] for strip in row["strips"]]
    return sorted(laid)


def test_wherever_it_is_stopped_all_is_cut_and_the_bound_holds(how_many):
    for given in plans(how_many(6, 60)):
        wanted = sorted(
            number for number, strip in enumerate(given["strips"]) for _ in range(strip["quantity"])
        )
        state, told = cutting_layout.start(given), []
        for _ in range(8):
            result, _ = cutting_layout.best(state)
            assert pieces_of(result) == wanted and result["unplaced"] == []
            told.append((result["bound"], result["bolt_length"]))
            cutting_layout.advance(state, 500)
        least = min(found for _, found in told)
        assert all(bound <= least * (1 + 1e-12) for bound, _ in told), given
        assert told == sorted(told, key=lambda one: -one[1]), "a later layout is no longer"


def test_slicing_the_search_never_changes_the_answer(how_many):
    for given in plans(how_many(4, 30)):
        state = cutting_layout.start(given)
        for slice_of_steps in (1, 7, 92, 900, 3000):
            cutting_layout.advance(state, slice_of_steps)
        assert cutting_layout.best(state) == cutting_layout.work(given)


def test_a_cloth_of_nap_keeps_each_size_lying_one_way(how_many):
    for given in plans(how_many(6, 60)):
        result, _ = cutting_layout.work(given)
        for cloth, laid in zip(given["cloths"], result["cloths"], strict=True):
            if cloth["nap"]:
                lying = {(strip["strip"], strip["turned"]) for row in laid["rows"] for strip in row["strips"]}
                assert len(lying) == len({strip for strip, _ in lying})


def test_no_whole_cost_is_more_than_both_runtimes_divide_alike():
    # of more the phone took other rows first
    given = read(cutting_layout.INPUTS, fine_plan())
    [component] = cutting_layout.start(given).components
    narrow = component.with_bolts({0: None})
    assert [row_type for row_type in narrow.search.problem.row_types if row_type.origin is None]
    for own in (component, narrow, component.with_bolts({1: None}), component.with_bolts({0: 900, 1: 900})):
        row_types, cost = own.search.problem.row_types, 0
        for size, count in enumerate(own.demand):
            cost += count * max(row_type.cost for row_type in row_types if size in row_type.turns)
        assert cost < MOST_COST
