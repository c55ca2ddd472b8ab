"""remnant-best-mix: every layout passes the checker, and none is worth more."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.catalogue import answer
from backend.core.cutting import remnant_best_mix
from backend.core.declaring.reading import read
from tests.core.cutting.layout_checker import check_mix
from tests.core.cutting.mix_oracle import dearest

pytestmark = pytest.mark.full

LENGTH = some.integers(20, 400) | some.integers(8, 120).map(lambda eighths: eighths * 3.175)
SIZE = some.fixed_dictionaries(
    {
        "length": LENGTH,
        "width": LENGTH,
        "value": some.integers(1, 900) | some.integers(1, 9999).map(lambda cents: cents / 100),
    },
    optional={"quantity": some.integers(0, 6)},
)
REMNANT = some.fixed_dictionaries({
    "width": some.integers(50, 900) | some.floats(50, 900), "length": some.integers(50, 700),
    "sizes": some.lists(SIZE, min_size=1, max_size=5), "rotate": some.booleans(),
    "stages": some.sampled_from([2, 3, "any"]),
})  # fmt: skip
FEW_STEPS = 200000


def mix(asked, **more):
    return answer("remnant-best-mix", {**asked, **more})["result"]


def small_sheets(count):
    for number in range(count):
        random = Random(f"mix {number}")
        sizes = []
        for _ in range(random.randint(1, 4)):
            size = {"length": random.randint(1, 8), "width": random.randint(1, 6)}
            size["value"] = random.randint(1, 40)
            if random.random() < (0, 1, 0.5)[number % 3]:
                size["quantity"] = random.randint(0, 3)
            sizes.append(size)
        yield {
            "width": random.randint(3, 13), "length": random.randint(3, 13), "sizes": sizes,
            "rotate": random.random() < 0.5, "stages": random.choice([2, 3, "any"]),
        }  # fmt: skip


def test_exhaustive_recursion_finds_nothing_dearer(how_many):
    for asked in small_sheets(how_many(60, 600)):
        result = mix(asked)
        check_mix(asked, result)
        assert result["value"] == dearest(**asked) and result["optimal"], asked


@given(REMNANT)
def test_every_layout_passes_the_checker_whenever_it_is_stopped(asked):
    state = remnant_best_mix.start(read(remnant_best_mix.INPUTS, {**asked, "steps": FEW_STEPS}))
    worth, bound = 0, None
    done = False
    while not done and state.steps < FEW_STEPS:
        done = remnant_best_mix.advance(state, 20000)
        result, _ = remnant_best_mix.best(state)
        check_mix(asked, result)
        assert result["value"] >= worth and (bound is None or result["bound"] <= bound)
        worth, bound = result["value"], result["bound"]


@given(REMNANT)
def test_a_layout_turned_a_quarter_is_worth_as_much(asked):
    quarter = {**asked, "width": asked["length"], "length": asked["width"]}
    quarter["sizes"] = [{**size, "length": size["width"], "width": size["length"]} for size in asked["sizes"]]
    one, other = mix(asked, steps=FEW_STEPS), mix(quarter, steps=FEW_STEPS)
    assert one["value"] <= other["bound"] and other["value"] <= one["bound"]
    assert one["value"] == other["value"] or not (one["optimal"] and other["optimal"])


@given(REMNANT)
def test_more_stages_turning_and_more_strips_are_worth_no_less(asked):
    free = [{name: size[name] for name in ("length", "width", "value")} for size in asked["sizes"]]
    least = mix(asked, rotate=False, stages=2, steps=FEW_STEPS)["value"]
    for more in ({"stages": 3}, {"stages": "any"}, {"rotate": True}, {"sizes": free}):
        assert mix({**asked, "rotate": False, "stages": 2, **more}, steps=FEW_STEPS)["bound"] >= least


@given(REMNANT, some.integers(1000, 50000))
def test_slices_do_not_change_the_answer(asked, slice_of_steps):
    checked = read(remnant_best_mix.INPUTS, {**asked, "steps": FEW_STEPS})
    state, left = remnant_best_mix.start(checked), FEW_STEPS
    while left:
        remnant_best_mix.advance(state, min(left, slice_of_steps))
        remnant_best_mix.best(state)
        left -= min(left, slice_of_steps)
    assert remnant_best_mix.best(state) == remnant_best_mix.work(checked)


def test_a_remnant_with_sixty_sizes_ends_within_its_steps():
    random = Random("sixty")
    sizes = [
        {
            "length": random.randint(100, 700),
            "width": random.randint(60, 300),
            "value": random.randint(1, 900),
        }
        for _ in range(60)
    ]
    for number, size in enumerate(sizes):
        if number % 2:
            size["quantity"] = random.randint(1, 5)
    asked = {"width": 1400, "length": 2000, "sizes": sizes}
    result = mix(asked, steps=1000000)
    check_mix(asked, result)
    # one line of a table may be begun before they end
    assert result["steps_used"] < 1500000 and 0 < result["value"] < result["bound"]


def test_a_choice_among_numbers_may_be_a_number_or_its_digits():
    asked = {"width": 5, "length": 5, "sizes": [{"length": 2, "width": 1, "value": 3}]}
    assert mix(asked, stages=2) == mix(asked, stages="2")


def test_there_is_a_layout_at_once_of_however_small_strips():
    asked = {"width": 687.25, "length": 1, "sizes": [{"length": 1, "width": 1, "value": 3}]}
    result = mix(asked, steps=1)
    check_mix(asked, result)
    assert result["pieces"] == 687
