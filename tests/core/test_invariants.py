"""What holds for any cloth, strip and loop, whatever the numbers."""

from math import pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from backend.core.catalogue import answer, calculators
from backend.core.declaring.errors import Problems
from backend.core.declaring.spec import DECIMAL, WHOLE
from tests.core.cutting.layout_checker import check_layout
from tests.core.random_inputs import random_inputs

pytestmark = pytest.mark.full

# lengths as people have them: whole, in tenths, in eighths of an inch, or anything
CUT = some.integers(5, 900) | some.integers(50, 9000).map(lambda tenths: tenths / 10)
LENGTH = CUT | some.integers(2, 280).map(lambda eighths: eighths * 3.175) | some.floats(5, 900)
INCREMENT = some.sampled_from([1, 10, 50, 100, 114.3, 250, 500, 914.4, 1000]) | some.floats(1, 2000)
CLOTH = some.fixed_dictionaries({
    "strip_length": LENGTH,
    "strip_width": LENGTH,
    "quantity": some.integers(1, 300),
    "bolt_width": some.floats(300, 3000) | some.integers(300, 3000),
    "selvedge": some.sampled_from([0, 10, 12.7]),
    "shrink_length": some.sampled_from([0, 3, 50]) | some.floats(0, 50),
    "shrink_width": some.sampled_from([0, 2, 50]) | some.floats(0, 50),
    "squaring": some.sampled_from([0, 50]) | some.floats(0, 2000),
    "shop_increment": INCREMENT,
    "minimum_cut": some.sampled_from([0, 0, 500]),
    "repeat": some.sampled_from([0, 0, 40, 76.2]),
    "price": some.integers(0, 5000),
})  # fmt: skip
REMNANT = some.fixed_dictionaries({
    "width": LENGTH, "length": LENGTH, "strip_length": LENGTH, "strip_width": LENGTH, "nap": some.booleans(),
})  # fmt: skip
HAIR = 1 + 1e-8


def fabric(cloth, **more):
    """The answer, or None where the strip does not fit."""
    try:
        return answer("fabric-per-dozen", {**cloth, **more})["result"]
    except Problems:
        return None


@given(CLOTH, some.booleans(), some.sampled_from(["best", "across", "along"]))
def test_bought_cloth_yields_at_least_the_quantity(cloth, mixed, direction):
    found = fabric(cloth, mixed=mixed, direction=direction)
    assume(found)
    washed = found["length_to_buy"] * (1 - cloth["shrink_length"] / 100)
    rows = sum(band["rows"] * band["row_height"] for band in found["bands"])
    # rows start on the repeat, and the last ends where its strips end
    rows -= found["bands"][-1]["row_height"] - found["bands"][-1]["strip_height"]
    assert rows + cloth["squaring"] <= washed * HAIR
    assert sum(band["rows"] * band["per_row"] for band in found["bands"]) >= cloth["quantity"]
    assert found["pieces_from_bought"] >= cloth["quantity"]
    for band in found["bands"]:
        reach = cloth["strip_length" if band["direction"] == "across" else "strip_width"]
        height = cloth["strip_width" if band["direction"] == "across" else "strip_length"]
        assert band["per_row"] * reach <= found["usable_width"] * HAIR
        assert band["row_height"] * HAIR >= height


@given(CLOTH)
def test_no_direction_is_shorter_than_the_best_and_none_than_mixed(cloth):
    best, mixed = fabric(cloth), fabric(cloth, mixed=True)
    assume(best)
    assert mixed["washed_length"] <= best["washed_length"] * HAIR
    assert mixed["length_to_buy"] <= best["length_to_buy"] * HAIR
    for direction in ("across", "along"):
        one_way = fabric(cloth, direction=direction)
        if one_way:
            assert best["length_to_buy"] <= one_way["length_to_buy"] * HAIR
            if best["length_to_buy"] == one_way["length_to_buy"]:
                # for the same cloth the way that gives more, and of equal yields the shorter
                assert best["pieces_from_bought"] >= one_way["pieces_from_bought"]
                same = best["pieces_from_bought"] == one_way["pieces_from_bought"]
                assert not same or best["washed_length"] <= one_way["washed_length"] * HAIR


@given(CLOTH, some.integers(1, 50))
def test_more_pieces_never_take_less_cloth(cloth, extra):
    fewer, more = fabric(cloth), fabric(cloth, quantity=cloth["quantity"] + extra)
    assume(fewer)
    assert more["washed_length"] >= fewer["washed_length"]


@given(CLOTH)
def test_what_is_bought_is_whole_steps_and_no_step_too_many(cloth):
    found = fabric(cloth)
    assume(found and found["length_to_buy"] > cloth["minimum_cut"])
    steps = found["length_to_buy"] / cloth["shop_increment"]
    assert abs(steps - round(steps)) < 1e-6
    assert found["length_to_buy"] - cloth["shop_increment"] < found["length_needed"]
    assert 0 <= found["waste"] <= 100


@given(some.lists(CLOTH, min_size=1, max_size=6))
def test_a_ranking_holds_what_each_cloth_gives_by_itself_cheapest_first(cloths):
    strip = {name: cloths[0][name] for name in ("strip_length", "strip_width", "quantity")}
    offers = [{k: v for k, v in cloth.items() if k not in strip} for cloth in cloths]
    alone = [fabric({**strip, **offer, "price_length": 1000}) for offer in offers]
    assume(all(alone))
    rows = [{**offer, "name": f"cloth {number}", "price_length": 1000} for number, offer in enumerate(offers)]
    ranking = answer("cloth-compare", {**strip, "cloths": rows})["result"]["ranking"]
    assert sorted(ranked["row"] for ranked in ranking) == list(range(len(cloths)))
    for ranked in ranking:
        for name in ("length_to_buy", "pieces_from_bought", "cost", "cost_each", "cost_each_if_all_sewn"):
            assert ranked[name] == alone[ranked["row"]][name]
    costs = [(r["cost_each"], r["cost_each_if_all_sewn"], r["row"]) for r in ranking]
    assert costs == sorted(costs)


@given(REMNANT)
def test_a_remnants_layout_passes_the_checker(given_remnant):
    result = laid_out(given_remnant)
    strip = (given_remnant["strip_length"], given_remnant["strip_width"])
    assert len(result["placed"]) == result["pieces"]
    size = given_remnant["width"], given_remnant["length"]
    check_layout(*size, strip, result["placed"], result["first_cuts"], given_remnant["nap"])
    used = result["pieces"] * strip[0] * strip[1] / (size[0] * size[1])
    assert result["waste"] == pytest.approx(100 * (1 - used), abs=1e-5)


@given(REMNANT)
def test_a_remnant_gives_as_much_turned_a_quarter_and_no_less_without_nap(given_remnant):
    pieces = laid_out(given_remnant)["pieces"]
    turned = {**given_remnant, "width": given_remnant["length"], "length": given_remnant["width"]}
    assert laid_out(turned)["pieces"] == pieces
    assert laid_out({**given_remnant, "nap": False})["pieces"] >= pieces


@given(REMNANT, some.floats(0, 100))
def test_a_larger_remnant_gives_no_fewer(given_remnant, more):
    larger = {**given_remnant, "width": given_remnant["width"] + more}
    assert laid_out(larger)["pieces"] >= laid_out(given_remnant)["pieces"]


def laid_out(given_remnant):
    try:
        return answer("remnant-yield", given_remnant)["result"]
    except Problems as error:
        assume([item["rule"] for item in error.problems] != ["too_many_pieces"])
        raise


@given(some.fixed_dictionaries({
    "loop": some.integers(20, 400), "fullness": some.floats(1, 5), "end_seam": some.floats(0, 20),
    "usable_width": some.integers(300, 2000), "ruler_step": some.sampled_from([None, 1, 3.175]),
}))  # fmt: skip
def test_fits_are_all_the_whole_numbers_of_strips_within_the_limits(given_piece):
    result = answer("strip-length", given_piece)["result"]
    for fit in result["fits"]:
        assert fit["per_row"] * fit["strip_length"] <= given_piece["usable_width"] * HAIR
        assert 1.8 / HAIR <= fit["fullness"] <= 3.5 * HAIR
    expected = []
    for per_row in range(1, 200):
        strip = given_piece["usable_width"] / per_row
        if given_piece["ruler_step"]:
            strip = strip // given_piece["ruler_step"] * given_piece["ruler_step"]
        # what lies on the very limit is for the table of cases
        fullness = (strip - 2 * given_piece["end_seam"]) / given_piece["loop"]
        assume(min(abs(fullness - 1.8), abs(fullness - 3.5)) > 1e-6)
        if 1.8 < fullness < 3.5:
            expected.append(per_row)
    assume(all(abs(w - round(w)) > 1e-6 for w in ruler_marks(given_piece)))
    assert [fit["per_row"] for fit in result["fits"]] == expected


def ruler_marks(given_piece):
    # where a strip lies on a mark to a float's last bit, // and the guarded floor differ
    step = given_piece["ruler_step"]
    return [given_piece["usable_width"] / k / step for k in range(2, 200)] if step == 3.175 else []


@given(some.integers(20, 400), some.integers(1, 4), some.floats(1, 12), some.floats(1, 4))
def test_an_estimate_lies_between_its_two_ends_and_grows_with_the_cord(loop, strands, width, pull):
    given_elastic = {"loop": loop, "strands": strands, "elastic_width": width, "pull": pull}
    result = answer("elastic-cut-length", given_elastic)["result"]
    assert result["knot_takeup_low"] < result["knot_takeup"] < result["knot_takeup_high"]
    # the stretched bundle holds the same elastic as the take-up it is made of
    area = strands * width / pull
    assert result["knot_takeup_low"] == pytest.approx(10.1 * strands * (4 * area / pi) ** 0.5 / pull)
    thicker = answer("elastic-cut-length", {**given_elastic, "elastic_width": width + 1})["result"]
    assert thicker["cut_length"] > result["cut_length"]


@given(some.integers(20, 400), some.integers(100, 10**6), some.floats(0, 100))
def test_a_roll_is_cut_up_without_making_elastic(loop, roll, takeup):
    result = answer("elastic-cut-length", {"loop": loop, "roll_length": roll, "knot_takeup": takeup})[
        "result"
    ]
    used = result["pieces_per_roll"] * result["cut_length"]
    assert used + result["roll_left"] == pytest.approx(roll)
    assert result["roll_left"] <= result["cut_length"] * HAIR


@pytest.mark.parametrize("calculator", calculators(), ids=lambda calculator: calculator.name)
def test_every_output_declared_is_there_and_of_its_type(calculator, how_many):
    for given_input in random_inputs(calculator.name, how_many(200, 2000), 9):
        try:
            result = answer(calculator.name, given_input)["result"]
        except Problems:
            continue
        check_outputs(calculator.outputs, result)


def check_outputs(fields, result):
    assert list(result) == [field.name for field in fields]
    for field in fields:
        value = result[field.name]
        if value is None:
            assert field.default is None, f"{field.name} may not be left out"
        elif field.quantity == "list":
            for row in value:
                check_output(field.item, row) if field.item else check_outputs(field.fields, row)
            assert len(value) <= field.most
        elif field.quantity == "object":
            check_outputs(field.fields, value)
        else:
            check_output(field, value)


def check_output(field, value):
    if field.quantity in WHOLE:
        assert isinstance(value, int) and not isinstance(value, bool), field.name
    elif field.quantity in DECIMAL or field.quantity == "money_each":
        assert isinstance(value, float), field.name
        assert value >= (field.lowest or 0), f"{field.name}: {value}"
    elif field.quantity == "flag":
        assert isinstance(value, bool), field.name
    else:
        assert isinstance(value, str), field.name
        assert not field.choices or value in field.choices, field.name
        assert field.quantity == "choice" or len(value) <= field.most, field.name
