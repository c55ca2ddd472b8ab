"""thread: against the sum written out again, and what must hold whatever is sewn."""

from math import ceil, floor, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems

pytestmark = pytest.mark.full
NAMES = ("Seagrass", "Fog", "Ink")
SEAM = some.fixed_dictionaries(
    {"name": some.just("Seam"), "length": some.floats(1, 3000), "stitch": some.sampled_from(("301", "304"))},
    optional={
        "count": some.integers(1, 5),
        "stitch_length": some.floats(1, 5),
        "thickness": some.floats(0, 5),
        "width": some.floats(0, 8),
        "sample": some.fixed_dictionaries({
            "length": some.floats(100, 1000), "needle": some.floats(0, 5000), "bobbin": some.floats(0, 5000),
        }),
    },
)  # fmt: skip
COLOURS = some.lists(
    some.fixed_dictionaries(
        {"needle": some.sampled_from(NAMES), "quantity": some.integers(1, 500)},
        optional={"bobbin": some.sampled_from(NAMES)},
    ),
    min_size=1,
    max_size=5,
)
SPOOLS = some.tuples(*[
    some.fixed_dictionaries({
        "colour": some.just(name), "length": some.floats(10000, 1000000), "at_home": some.floats(0, 200000),
        "price": some.integers(0, 900),
    })
    for name in NAMES
]).map(list)  # fmt: skip
WHOLE = {
    "seams": some.lists(SEAM, min_size=1, max_size=6),
    "tail": some.floats(0, 300),
    "waste": some.floats(0, 100),
    "colours": COLOURS,
    "spools": SPOOLS,
    "bobbin_length": some.floats(5000, 200000),
}


def of_a_seam(seam, thread):
    if "sample" in seam:
        return seam["sample"][thread] / seam["sample"]["length"]
    if "thickness" not in seam:
        return {"301": 1.25, "304": 2.75}[seam["stitch"]]
    stitch, width = seam.get("stitch_length", 2.5), seam.get("width", 3)
    return ((stitch if seam["stitch"] == "301" else sqrt(stitch**2 + width**2)) + seam["thickness"]) / stitch


@given(some.fixed_dictionaries(WHOLE))
def test_thread_is_the_sum_written_out(asked):
    try:
        told = answer("thread", asked)["result"]
    except Problems as error:
        assert [item["rule"] for item in error.problems] == ["bobbin_short"]
        return
    for thread in ("needle", "bobbin"):
        each = sum(
            (seam["length"] * of_a_seam(seam, thread) + asked["tail"]) * seam.get("count", 1)
            for seam in asked["seams"]
        )
        assert told["each"][thread] == pytest.approx(each * (1 + asked["waste"] / 100))
    assert told["each"]["total"] == pytest.approx(told["each"]["needle"] + told["each"]["bobbin"])
    taken = sum(row["length"] for row in told["colours"])
    assert taken == pytest.approx(told["each"]["total"] * sum(row["quantity"] for row in asked["colours"]))


@given(some.fixed_dictionaries(WHOLE))
def test_what_is_bought_and_at_home_is_enough_and_no_spool_too_many(asked):
    asked.pop("bobbin_length")
    told = answer("thread", asked)["result"]
    for row in told["colours"]:
        [spool] = [one for one in asked["spools"] if one["colour"] == row["colour"]]
        assert row["from_home"] <= spool["at_home"] * (1 + 1e-9)
        assert row["from_home"] + row["spools"] * spool["length"] >= row["length"] * (1 - 1e-8) - 1e-6
        short = row["length"] - row["from_home"]
        assert row["spools"] == 0 or (row["spools"] - 1) * spool["length"] < short
        assert row["cost"] == row["spools"] * spool["price"]
    assert told["cost"] == sum(row["cost"] for row in told["colours"])


@given(some.fixed_dictionaries(WHOLE))
def test_bobbins_last_for_their_pieces(asked):
    try:
        told = answer("thread", asked)["result"]
    except Problems:
        assume(False)
    each = told["each"]["bobbin"]
    assume(each > 0.001)
    assert told["pieces_per_bobbin"] == floor(asked["bobbin_length"] / each * (1 + 1e-12) + 1e-9)
    wanted = {}
    for row in asked["colours"]:
        name = row.get("bobbin", row["needle"])
        wanted[name] = wanted.get(name, 0) + row["quantity"]
    assert told["bobbins"] == sum(ceil(count / told["pieces_per_bobbin"]) for count in wanted.values())
    assert told["refills"] == told["bobbins"] - len(wanted)
