"""remnant-best-mix: right for every worth that may be asked, and looked at once more before it is told."""

from random import Random

import pytest

from backend.core.catalogue import answer
from backend.core.cutting import remnant_best_mix
from backend.core.cutting.remnant.checking import fault_of
from backend.core.declaring.reading import read
from tests.core.cutting.layout_checker import check_mix


def mix(asked):
    return answer("remnant-best-mix", asked)["result"]


def test_worths_above_a_thousand_milliards_lie_inside_the_cloth():
    # what was to be below every worth once was not, and strips lay beside the cloth, called proven
    sizes = [
        {"length": 149, "width": 50, "value": 785251452},
        {"length": 86, "width": 17, "value": 146200.859371, "quantity": 2},
    ]
    asked = {"width": 190, "length": 185, "sizes": sizes, "rotate": False, "stages": "any"}
    result = mix(asked)
    check_mix(asked, result)
    assert (result["pieces"], result["optimal"]) == (5, True)


@pytest.mark.full
def test_a_layout_of_any_worths_can_be_cut(how_many):
    random = Random("worths")
    for _ in range(how_many(30, 600)):
        sizes = [
            {
                "length": random.randint(10, 160),
                "width": random.randint(10, 120),
                "value": round(random.choice([1, 10**9, 10**6, 0.001]) * random.random(), 6),
                "quantity": random.choice([None, random.randint(0, 6)]),
            }
            for _ in range(random.randint(1, 4))
        ]
        asked = {"width": random.randint(80, 300), "length": random.randint(80, 300), "sizes": sizes}
        asked.update(rotate=random.random() < 0.5, stages=random.choice([2, 3, "any"]), steps=150000)
        check_mix(asked, mix(asked))


def a_good_answer():
    sizes = [{"length": 40, "width": 30, "value": 5, "quantity": 2}, {"length": 60, "width": 20, "value": 4}]
    given = {"width": 100, "length": 50, "sizes": sizes, "rotate": False, "stages": 2}
    given = read(remnant_best_mix.INPUTS, given)
    return given, remnant_best_mix.work(given)[0]


def move(result, **changes):
    result["placed"][0].update(changes)


@pytest.mark.parametrize(
    ("fault", "break_it"),
    [
        (None, lambda result: None),
        ("outside", lambda result: move(result, x=90.0)),
        ("outside", lambda result: move(result, y=-90.0)),
        ("turned", lambda result: move(result, turned=True)),
        ("not cut apart", lambda result: move(result, **{k: result["placed"][1][k] for k in ("x", "y")})),
        ("too many", lambda result: [spot.update(size=0) for spot in result["placed"]]),
        ("another worth", lambda result: result.update(value=result["value"] + 1)),
        ("another worth", lambda result: result.update(bound=result["value"] - 1)),
    ],
)
def test_a_layout_with_a_fault_is_known(fault, break_it):
    given, result = a_good_answer()
    break_it(result)
    assert fault_of(given, result) == fault


def test_a_layout_with_a_fault_is_never_told(monkeypatch):
    given, _ = a_good_answer()
    monkeypatch.setattr(remnant_best_mix, "lay_out", lambda tree, sizes: [
        {"size": 1, "x": 70.0, "y": 0.0, "length": 60.0, "width": 20.0, "turned": False}
    ])  # fmt: skip
    with pytest.raises(ValueError, match="outside"):
        remnant_best_mix.work(given)
