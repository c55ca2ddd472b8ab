"""What a remnant could give, asked from records: strips, worths, quantities, how they lie; and its cuts."""

import pytest

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems
from backend.core.planning.remnant_mix import laid_mix, remnant_mix
from tests.core.cutting.cut_replay import replay
from tests.core.planning.mixes import small_mix
from tests.core.planning.test_planned import CLOTHS, CORD, LAWN, OTHER, SIZES, elastic, remnant

BY_NAME = sorted(SIZES)
# ids stand in for themselves where they link
IDS = {name: f"0190163d-8694-739b-aea5-966c26f8ae0{place}" for place, name in enumerate(BY_NAME)}
PIECES = {IDS[name]: SIZES[name] for name in ("Petite", "Everyday", "Grand")}
NARROW = "0190163d-8694-739b-aea5-966c26f8af01"


def product(size, price, cloth=None, **more):
    return {"size": IDS[size], "cloth": cloth, "price": price, "group": size, **more}


def line(size, quantity, cloth=LAWN):
    return {"size": IDS[size], "cloth": cloth, "quantity": quantity}


def mix(products=(), elastics=None, wanted=(), waiting=(), ways=None, of=LAWN, unit="mm", **choices):
    return remnant_mix(
        {"r": remnant("Blue basket", of)},
        {id: CLOTHS[id] for id in (LAWN, CORD)},
        PIECES,
        {f"p{number}": one for number, one in enumerate(products)},
        elastics or {},
        list(wanted),
        list(waiting),
        ways or {},
        choices,
        unit,
    )


def of_sizes(told, *names):
    return {row["name"]: tuple(row[name] for name in names) for row in told["sizes"]}


ALL = [product("Petite", 450), product("Everyday", 600), product("Grand", 900)]
BRAID = {NARROW: elastic("Braided", knot_takeup=31)}


def test_strips_and_measures_are_those_of_the_records():
    told = mix(ALL)
    # worked by hand: 165 × 2.8 + 2 × 10, 2 × 45 + 2 × 10, and so on
    assert of_sizes(told, "length", "width") == {
        "Petite": (pytest.approx(384), 80),
        "Everyday": (pytest.approx(482), 110),
        "Grand": (pytest.approx(596), 140),
    }
    given = told["given"]
    assert (given["width"], given["length"], given["stages"]) == (900, 700, "any")
    assert told["rows"] == sorted(PIECES)


def test_strips_are_rounded_to_what_the_ruler_shows():
    told = mix(ALL, unit="in")
    assert of_sizes(told, "length", "width")["Everyday"] == (pytest.approx(482.6), 111.125)


def test_a_strip_is_worth_its_price_less_its_elastic():
    told = mix(ALL, BRAID)
    # worked by hand: 165 + 31 + 2 × 20 = 236 of 50,000 mm at 790: 3.73; 140: 211, 3.33; 180: 251, 3.97
    assert of_sizes(told, "price", "elastic_cost", "worth") == {
        "Petite": (450, 3, 447), "Everyday": (600, 4, 596), "Grand": (900, 4, 896),
    }  # fmt: skip
    assert {row["name"]: row["value"] for row in told["given"]["sizes"]} == {
        "Petite": 447, "Everyday": 596, "Grand": 896,
    }  # fmt: skip
    assert told["measure"] == "money"


def test_an_elastic_whose_price_is_not_known_is_not_counted():
    told = mix(ALL, {NARROW: elastic("Braided", price=None)})
    assert of_sizes(told, "elastic_cost", "worth")["Everyday"] == (None, 600)


def test_a_size_whose_elastic_is_not_known_is_worth_its_price():
    told = mix(ALL, BRAID | {OTHER: elastic("Wide")})
    assert of_sizes(told, "elastic_cost", "worth")["Grand"] == (None, 900)


def test_a_strip_is_worth_no_less_than_nothing():
    told = mix([product("Everyday", 2)], BRAID)
    assert of_sizes(told, "worth")["Everyday"] == (0,)
    assert told["given"]["sizes"] == []


def test_the_price_in_this_cloth_goes_before_that_without_a_cloth_and_no_other_counts():
    prices = [product("Everyday", 500), product("Everyday", 650, LAWN), product("Grand", 990, CORD)]
    told = mix([*prices, product("Petite", 470, LAWN, active=False)])
    assert of_sizes(told, "price") == {"Petite": (None,), "Everyday": (650,), "Grand": (None,)}
    assert of_sizes(mix(prices, of=CORD), "price")["Grand"] == (990,)


def test_what_she_says_goes_before_the_price():
    told = mix(ALL, BRAID, worths={IDS["Everyday"]: 700, "a size that is gone": 5})
    assert of_sizes(told, "worth")["Everyday"] == (700,)


def test_sizes_without_a_price_are_left_out_until_she_says_what_they_are_worth():
    told = mix([product("Everyday", 600)])
    assert told["rows"] == [IDS["Everyday"]] and of_sizes(told, "worth")["Grand"] == (None,)
    told = mix([product("Everyday", 600)], worths={IDS["Grand"]: 800})
    assert told["rows"] == [IDS["Everyday"], IDS["Grand"]]


def test_without_any_price_a_strip_is_worth_its_area():
    told = mix()
    assert told["measure"] == "area"
    assert of_sizes(told, "worth")["Petite"] == (pytest.approx(384 * 80),)
    # a price of a size that is not cut is none
    told = mix([product("Grand", 900)], left_out=[IDS["Grand"]])
    assert told["measure"] == "area" and sorted(told["rows"]) == sorted([IDS["Petite"], IDS["Everyday"]])


def test_strips_can_be_counted_instead():
    told = mix(ALL, measure="strips")
    assert [row["value"] for row in told["given"]["sizes"]] == [1, 1, 1]
    assert mix(ALL, measure="area")["measure"] == "area"


def test_as_many_as_are_still_wanted_less_those_that_wait():
    wanted = [line("Everyday", 24), line("Petite", 6), line("Grand", 12, CORD)]
    waiting = [line("Everyday", 7), line("Petite", 9), line("Everyday", 5, CORD), line("Grand", 1, None)]
    told = mix(ALL, wanted=wanted, waiting=waiting)
    assert told["many"] == "wanted"
    assert of_sizes(told, "wanted", "waiting", "quantity") == {
        "Petite": (6, 9, 0), "Everyday": (24, 7, 17), "Grand": (0, 0, 0),
    }  # fmt: skip
    assert [(row["name"], row["quantity"]) for row in told["given"]["sizes"]] == [("Everyday", 17)]


def test_without_a_plan_in_its_cloth_as_many_are_cut_as_fit():
    told = mix(ALL, wanted=[line("Grand", 12, CORD)])
    assert told["many"] == "fit"
    assert [row["quantity"] for row in told["given"]["sizes"]] == [None, None, None]
    assert mix(ALL, wanted=[line("Grand", 12)], many="fit")["many"] == "fit"


def test_she_says_how_many_at_most():
    told = mix(ALL, many="typed", quantities={IDS["Grand"]: 3, IDS["Petite"]: 0})
    rows = [(row["name"], row["quantity"]) for row in told["given"]["sizes"]]
    assert rows == [("Everyday", None), ("Grand", 3)]


@pytest.mark.parametrize("of, ways, lying", [
    (LAWN, {}, "either"),
    (CORD, {}, "across"),
    (CORD, {CORD: {"nap": False}}, "either"),
    (LAWN, {LAWN: {"nap": True}}, "across"),
    (LAWN, {LAWN: {"stretch": "along"}}, "along"),
    (CORD, {CORD: {"stretch": "along"}}, "along"),
])  # fmt: skip
def test_strips_of_cloth_with_a_nap_or_a_stretch_lie_one_way(of, ways, lying):
    told = mix(ALL, of=of, ways=ways)
    assert (told["lying"], told["given"]["rotate"]) == (lying, lying == "either")
    # what she chooses goes before it
    assert mix(ALL, of=of, ways=ways, lying="across")["lying"] == "across"


def test_pieces_are_stacked_as_the_cloth_allows():
    assert [(told["layers"], told["nap"]) for told in (mix(ALL), mix(ALL, of=CORD))] == [
        (4, False),
        (1, True),
    ]
    assert mix(ALL, ways={LAWN: {"layers": 6}})["layers"] == 6


@pytest.mark.parametrize("more, field", [
    ({"measure": "weight"}, "measure"),
    ({"worths": {IDS["Grand"]: "much"}}, "worths." + IDS["Grand"]),
    ({"quantities": {IDS["Grand"]: -1}}, "quantities." + IDS["Grand"]),
    ({"ways": {LAWN: {"fold": 3}}}, "fold"),
])  # fmt: skip
def test_a_choice_that_is_none_is_refused(more, field):
    with pytest.raises(Problems) as caught:
        mix(ALL, **more)
    assert field in [item["field"] for item in caught.value.problems]


def test_records_that_are_not_whole_are_named():
    with pytest.raises(Problems) as caught:
        remnant_mix({"r": remnant("Rest", CORD)}, {}, {"s": {"loop": 3}}, {}, {}, [], [], {}, {}, "mm")
    assert "cloths." + CORD + ".name" in [item["field"] for item in caught.value.problems]


@pytest.mark.parametrize("remnants, rule", [({}, "too_few"), ({"a": 1, "b": 1}, "rows")])
def test_it_is_about_one_remnant(remnants, rule):
    with pytest.raises(Problems) as caught:
        remnant_mix(remnants, CLOTHS, PIECES, {}, {}, [], [], {}, {}, "mm")
    assert [item["rule"] for item in caught.value.problems] == [rule]


def laid(told, layers=1, strips=None):
    result = answer("remnant-best-mix", told["given"])["result"]
    all_strips = [{"length": row["length"], "width": row["width"]} for row in told["sizes"]]
    return result, laid_mix(
        told["given"], result["placed"], result["first_cuts"], told["lying"], layers, strips or all_strips
    )


@pytest.mark.parametrize("lying", ["either", "across", "along"])
def test_the_mix_is_told_as_a_laid_cloth(lying):
    told = mix(ALL, BRAID, lying=lying)
    result, cloth = laid(told)
    assert (cloth["usable_width"], cloth["usable_length"], cloth["length_to_buy"]) == (900, 700, None)
    strips = [strip for row in cloth["rows"] for strip in row["strips"]]
    assert len(strips) == result["pieces"]
    ways = {"either": {True, False}, "across": {False}, "along": {True}}[lying]
    assert {strip["turned"] for strip in strips} <= ways
    assert {strip["name"] for strip in strips} <= {"Petite", "Everyday", "Grand"}
    for strip in strips:
        assert told["given"]["sizes"][strip["strip"]]["name"] == strip["name"]
    replay(900, 700, cloth["cuts"])
    ends = [strip["y"] + strip["length" if strip["turned"] else "width"] for strip in strips]
    assert cloth["used_length"] == max(ends) <= 700


def test_rows_hold_the_strips_that_lie_in_them(how_many):
    for number in range(how_many(40, 300)):
        asked, result = small_mix(number)
        cloth = laid_mix(asked, result["placed"], result["first_cuts"], "either", 1, [])
        end = 0
        for row in cloth["rows"]:
            assert row["y"] == pytest.approx(end)
            end = row["y"] + row["height"]
            for strip in row["strips"]:
                along = strip["length" if strip["turned"] else "width"]
                assert row["y"] - 1e-6 <= strip["y"] and strip["y"] + along <= end + 1e-6
        assert sum(len(row["strips"]) for row in cloth["rows"]) == result["pieces"]
        assert end <= asked["length"] + 1e-6


def test_offcuts_large_enough_for_some_strip_are_told():
    told = mix(ALL, many="typed", quantities={IDS["Grand"]: 1, IDS["Petite"]: 0, IDS["Everyday"]: 0})
    # worked by hand: 596 × 140 across 900 × 700 leaves 900 × 560 behind it, and 304 × 140 beside it
    _, cloth = laid(told, strips=[{"length": 384, "width": 80}])
    assert [(one["width"], one["length"]) for one in cloth["offcuts"]] == [(900, 560)]
    _, cloth = laid(told, strips=[{"length": 140, "width": 300}])
    assert sorted((one["width"], one["length"]) for one in cloth["offcuts"]) == [
        (pytest.approx(304), 140), (900, 560),
    ]  # fmt: skip


@pytest.mark.parametrize("placed", [
    [{"size": 0, "x": 0, "y": 0, "length": 50, "width": 50, "turned": False}] * 2,
    [{"size": 3, "x": 0, "y": 0, "length": 50, "width": 50, "turned": False}],
])  # fmt: skip
def test_what_cannot_be_cut_apart_is_refused(placed):
    asked = {"width": 100, "length": 100, "sizes": [{"length": 50, "width": 50, "value": 1}]}
    with pytest.raises(Problems) as caught:
        laid_mix(asked, placed, "across", "either", 1, [])
    assert [item["rule"] for item in caught.value.problems] == ["not_cut_apart"]
