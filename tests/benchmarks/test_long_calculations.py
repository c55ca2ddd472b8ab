"""How long the long calculations take at the limits of their input, with all steps that may be asked for."""

import random
import time

import pytest

from backend.core.catalogue import answer, calculator_named
from backend.core.declaring.spec import by_name
from tests.benchmarks.table import row
from tests.core.cutting.test_layout_work import hard_plan

pytestmark = pytest.mark.benchmark

MOST_SECONDS = 10
SEEDS = 3
# what is at most 5 s of processor where the work compared to takes 0.105 s
MOST_TIMES = 48


def most_steps(calculator):
    """Tell the most steps that may be asked for."""
    return by_name(calculator_named(calculator).inputs)["steps"].highest


def napped_bolt(random, number):
    """A bolt on which all strips of a size lie one way."""
    return {"name": f"cloth {number}", "width": random.choice([1100, 1400, 1600]), "nap": True}


def priced_bolt(random, number):
    """A bolt with everything that makes bolts differ."""
    trims = {"squaring": 50, "shrink_length": 4, "repeat": random.choice([0, 40, 63.5])}
    return {"name": f"cloth {number}", "width": 1400, "price": random.randint(500, 3000), **trims}


def remnant(random, number):
    """A piece of cloth that is there already."""
    size = {"width": random.randint(300, 1400), "length": random.randint(150, 2000)}
    return {"name": f"cloth {number}", **size}


def layout(random, bolt, bolts):
    """Make as many cloths, sizes and strips as one layout may have."""
    cloths = [(bolt if number < bolts else remnant)(random, number) for number in range(12)]
    strips = [
        {
            "name": f"strip {number}",
            "length": random.randint(250, 700),
            "width": random.randint(60, 200),
            "quantity": 166,
        }
        for number in range(12)
    ]
    return {"cloths": cloths, "strips": strips}


def many_bolts(random):
    """Twelve bolts to buy from, all different."""
    return layout(random, priced_bolt, 12)


def napped(random):
    """One bolt with a nap and eleven remnants."""
    return layout(random, napped_bolt, 1)


def stacked(random):
    """The same with low strips over each other."""
    return napped(random) | {"stages": 3}


def planned(random):
    """The first of these with an elastic of its own for each size, and three rolls for each."""
    given = napped(random)
    for number, strip in enumerate(given["strips"]):
        strip |= {"elastic": random.randint(150, 300), "elastic_name": f"elastic {number}", "quantity": 160}
    given["rolls"] = [
        {"name": f"elastic {number % 12}", "length": length, **({"count": 3} if length < 10000 else {})}
        for number, length in enumerate([3700] * 12 + [5300] * 12 + [10000] * 12)
    ]
    return given


def many_lengths(random):
    """As many lengths of elastic and rolls as may be asked for."""
    lengths = [{"length": random.randint(150, 400), "quantity": random.randint(1, 90)} for _ in range(40)]
    return {"lengths": lengths, "rolls": [{"length": 4000 + 700 * number} for number in range(12)]}


def many_sizes(random):
    """As many sizes as one remnant may be cut into, few of each."""
    sizes = [
        {
            "length": random.randint(90, 700),
            "width": random.randint(40, 200),
            "value": random.randint(1, 900),
            "quantity": random.randint(1, 6),
        }
        for _ in range(60)
    ]
    return {"width": 1600, "length": 3000, "sizes": sizes}


def evenly(random):
    """Sizes that differ evenly, which the search is longest about."""
    return hard_plan()


def nearly_alike(random):
    """Sizes that hardly differ, so that every row may hold many mixes."""
    strips = [
        {"name": f"strip {k}", "length": 503 + 3 * k, "width": 101 + 2 * k, "quantity": 135}
        for k in range(12)
    ]
    return {"cloths": [{"name": "bolt", "width": 1400}], "strips": strips}


def evenly_stacked(random):
    """The first of these with low strips over each other."""
    return hard_plan() | {"stages": 3}


def compared_to():
    """Measure the processor's seconds for work that has nothing to do with ours."""
    began, total, seen = time.process_time(), 0, {}
    for number in range(300000):
        total += max([number, number + 1, number + 2]) * 3 // 2
        seen[number % 97] = total
    return time.process_time() - began


@pytest.mark.parametrize("make", [evenly, nearly_alike, evenly_stacked, many_bolts, napped, stacked])
def test_a_layout_is_worked_out_in_few_seconds_of_processor(make, keep):
    times = []
    for seed in range(SEEDS):
        given = make(random.Random(seed))
        before, began = compared_to(), time.process_time()
        answer("cutting-layout", given)
        took = time.process_time() - began
        times.append(took / min(before, compared_to()))
    what = f"cutting-layout, {make.__name__.replace('_', ' ')}: processor, in times of work compared to"
    keep(row(what, times, MOST_TIMES))


@pytest.mark.parametrize(
    ("calculator", "make"),
    [
        ("cutting-layout", many_bolts),
        ("cutting-layout", napped),
        ("cutting-layout", stacked),
        ("buy-list", planned),
        ("elastic-rolls", many_lengths),
        ("remnant-best-mix", many_sizes),
    ],
)
def test_a_long_calculation_ends_in_time(calculator, make, keep):
    took = []
    for seed in range(SEEDS):
        given = make(random.Random(seed)) | {"steps": most_steps(calculator)}
        began = time.perf_counter()
        answer(calculator, given)
        took.append(time.perf_counter() - began)
    keep(row(f"{calculator} at its limits, {make.__name__.replace('_', ' ')}, s", took, MOST_SECONDS, "p95"))
