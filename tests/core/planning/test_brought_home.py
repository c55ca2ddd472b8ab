"""What is bought is at home as it can be cut; and the calculator and the plan agree, or it is known why."""

import json
from pathlib import Path

import pytest

from backend.core.catalogue import answer
from backend.core.planning.beside_calculator import beside_calculator
from backend.core.planning.brought_home import brought_home
from backend.core.planning.strips import planned

FIXTURES = Path(__file__).parents[3] / "demo_fixtures"
SIZES = {row["name"]: row for row in json.loads((FIXTURES / "sizes.json").read_text(encoding="utf-8"))}
CLOTHS = {row["name"]: row for row in json.loads((FIXTURES / "cloths.json").read_text(encoding="utf-8"))}
LAWN, LAWN_ID = "Seagrass lawn", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"


def plan(*rows, remnants=None, cloth=LAWN):
    wanted = [{"size": size, "cloth": LAWN_ID, "quantity": quantity} for size, quantity in rows]
    return planned(wanted, SIZES, {LAWN_ID: CLOTHS[cloth]}, remnants or {}, {}, {}, "mm")["given"]


def bought(given, spare_percent=2):
    return answer("buy-list", {**given, "spare_percent": spare_percent})["result"]


def beside(given, result):
    """What is told of the one cloth that a plan buys."""
    [row] = result["cloths_to_buy"]
    counts = {}
    for strips in result["cloths"][row["cloth"]]["rows"]:
        for strip in strips["strips"]:
            counts[strip["strip"]] = counts.get(strip["strip"], 0) + 1
    strips = [
        {
            **{name: given["strips"][number][name] for name in ("length", "width", "quantity")},
            "spare": result["to_cut"][number]["spare"],
            "elsewhere": result["to_cut"][number]["quantity"] - count,
        }
        for number, count in sorted(counts.items())
    ]
    cloth = given["cloths"][row["cloth"]]
    return beside_calculator({"cloth": cloth, "strips": strips, "length_to_buy": row["length_to_buy"]})


def test_cloth_at_home_is_washed_trimmed_and_square():
    told = brought_home(CLOTHS[LAWN], 2600)
    # worked by hand: 2600 × 0.97 − 50; 1400 × 0.98 − 2 × 10
    assert told == {"width": pytest.approx(1352), "length": pytest.approx(2472)}


def test_what_a_plan_asks_for_gives_the_same_plan_from_home():
    given = plan(("Everyday", 60))
    [row] = bought(given)["cloths_to_buy"]
    home = brought_home(CLOTHS[LAWN], row["length_to_buy"])
    remnants = {"home": {"name": "home", "cloth": LAWN_ID, **home}}
    after = bought(plan(("Everyday", 60), remnants=remnants))
    assert after["cloths_to_buy"] == [] and after["unplaced"] == []
    assert [(row["name"], row["pieces"]) for row in after["cloths_at_home"]] == [("home", row["pieces"])]


@pytest.mark.parametrize("fields", [{"name": "Lawn"}, {}, {"name": "Lawn", "bolt_width": "wide"}])
def test_of_a_cloth_that_is_not_measured_nothing_is_at_home(fields):
    assert brought_home(fields, 2600) is None


@pytest.mark.parametrize("length", [0, 40, 10000000])
def test_of_a_length_that_leaves_nothing_to_cut_nothing_is_at_home(length):
    assert brought_home(CLOTHS[LAWN], length) is None


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("cloth", CLOTHS)
def test_the_calculator_and_the_plan_agree_but_for_what_is_told(cloth, size):
    for quantity in (12, 66):
        given = plan((size, quantity), cloth=cloth)
        told = beside(given, bought(given, spare_percent=0))
        assert told is None or told["torn"] or told["printed"]


def test_spare_strips_are_told_as_the_reason():
    given = plan(("Everyday", 60))
    result = bought(given, spare_percent=50)
    told = beside(given, result)
    assert (told["spare"], told["elsewhere"], told["sizes"], told["torn"]) == (30, 0, 1, CLOTHS[LAWN]["tear"])
    assert told["alone"] < result["cloths_to_buy"][0]["length_to_buy"]


def test_strips_from_home_and_sizes_that_share_a_cloth_are_told_as_reasons():
    remnants = {"basket": {"name": "basket", "cloth": LAWN_ID, "width": 900, "length": 700}}
    given = plan(("Everyday", 60), ("Petite", 6), remnants=remnants)
    told = beside(given, bought(given))
    assert told["elsewhere"] > 0 and told["sizes"] == 2


def test_what_the_calculator_cannot_answer_is_not_compared():
    given = plan(("Everyday", 12))
    strip = {"length": 9000, "width": 9000, "quantity": 1, "spare": 0, "elsewhere": 0}
    assert beside_calculator({"cloth": given["cloths"][0], "strips": [strip], "length_to_buy": 100}) is None
