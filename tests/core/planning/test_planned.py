"""A plan of cutting made from records: sizes, cloths, remnants, and what is chosen for each."""

import json
from pathlib import Path

import pytest

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems
from backend.core.planning.strips import planned

FIXTURES = Path(__file__).parents[3] / "demo_fixtures"
SIZES = {row["name"]: row for row in json.loads((FIXTURES / "sizes.json").read_text(encoding="utf-8"))}
LAWN, CORD = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "0190163d-8694-739b-aea5-966c26f8ad91"
OTHER = "0190163d-8694-739b-aea5-966c26f8ad92"
NAMES = {"Seagrass lawn": LAWN, "Rust needlecord": CORD}
CLOTHS = {
    NAMES[row["name"]]: row
    for row in json.loads((FIXTURES / "cloths.json").read_text(encoding="utf-8"))
    if row["name"] in NAMES
}


def wanted(size, cloth, quantity):
    return {"size": size, "cloth": cloth, "quantity": quantity}


def remnant(name, cloth=LAWN, width=900, length=700, **more):
    return {"name": name, "cloth": cloth, "width": width, "length": length, **more}


def elastic(name, **more):
    return {"name": name, "roll_length": 50000, "price": 790, **more}


def plan(rows, remnants=None, ways=None, unit="mm", elastics=None, sizes=SIZES):
    return planned(rows, sizes, CLOTHS, remnants or {}, elastics or {}, ways or {}, unit)


def laid_out(told):
    return answer("buy-list", {**told["given"], "spare_percent": 0})["result"]


def test_a_strip_is_as_long_and_wide_as_its_size_says():
    [strip] = plan([wanted("Everyday", LAWN, 24)])["given"]["strips"]
    # worked by hand: 165 × 2.8 + 2 × 10, 2 × 45 + 2 × 10
    assert (strip["length"], strip["width"], strip["quantity"]) == (pytest.approx(482), 110, 24)


def test_a_strip_is_rounded_to_what_the_ruler_shows():
    [strip] = plan([wanted("Everyday", LAWN, 24)], unit="in")["given"]["strips"]
    # worked by hand: 482 / 3.175 = 151.8, so 152 eighths of an inch; 110 / 3.175 = 34.6, so 35
    assert (strip["length"], strip["width"]) == (pytest.approx(482.6), 111.125)


def test_the_same_size_of_one_cloth_is_planned_once():
    rows = [wanted("Everyday", LAWN, 24), wanted("Petite", LAWN, 6), wanted("Everyday", LAWN, 12)]
    told = plan(rows)
    assert [strip["quantity"] for strip in told["given"]["strips"]] == [36, 6]
    assert told["strips"] == [{"size": "Everyday", "cloth": LAWN}, {"size": "Petite", "cloth": LAWN}]


def test_a_bolt_is_cut_as_its_record_says():
    [lawn, cord] = plan([wanted("Everyday", LAWN, 24), wanted("Grand", CORD, 12)])["given"]["cloths"]
    assert (lawn["width"], lawn["selvedge"], lawn["shrink_width"], lawn["price"]) == (1400, 10, 2, 890)
    assert (lawn["nap"], lawn["tear"], lawn["fold"], lawn["layers"]) == (False, True, 2, 4)
    # what may not be mixed lies one way, single
    assert (cord["nap"], cord["tear"], cord["fold"], cord["layers"]) == (True, False, 1, 1)


def test_a_bolt_that_was_not_measured_is_refused_by_what_is_missing_and_its_remnants_are_cut():
    cloths = {LAWN: {**CLOTHS[LAWN], "bolt_width": None}}
    with pytest.raises(Problems) as refused:
        planned([wanted("Petite", LAWN, 6)], SIZES, cloths, {}, {}, {}, "mm")
    [item] = refused.value.problems
    assert (item["field"], item["rule"]) == ("cloths." + LAWN + ".bolt_width", "required")
    rest = {"r": remnant("Blue basket")}
    told = planned([wanted("Petite", LAWN, 6)], SIZES, cloths, rest, {}, {LAWN: {"bolt": False}}, "mm")
    assert told["cloths"] == [{"cloth": LAWN, "remnant": "r"}]


def test_what_is_chosen_goes_before_what_the_record_says():
    ways = {LAWN: {"tear": False, "fold": 4, "layers": 6, "nap": True, "stretch": "across"}}
    [lawn] = plan([wanted("Everyday", LAWN, 24)], ways=ways)["given"]["cloths"]
    assert {name: lawn[name] for name in ways[LAWN]} == ways[LAWN]


def test_remnants_of_the_cloth_come_before_its_bolt_and_need_no_trimming():
    rest = {"r": remnant("Blue basket", use_first=True), "c": remnant("Cord end", CORD)}
    told = plan([wanted("Everyday", LAWN, 24)], rest)
    assert told["cloths"] == [{"cloth": LAWN, "remnant": "r"}, {"cloth": LAWN, "remnant": None}]
    [own, bolt] = told["given"]["cloths"]
    assert (own["width"], own["length"], own["use_first"], own["fold"]) == (900, 700, True, 1)
    assert "selvedge" not in own and "length" not in bolt


def test_strips_are_cut_from_their_own_cloth_alone():
    rows = [wanted("Everyday", LAWN, 24), wanted("Everyday", CORD, 12)]
    told = plan(rows, {"r": remnant("Blue basket")})
    assert [strip["cloths"] for strip in told["given"]["strips"]] == [
        ["Blue basket", "Seagrass lawn"],
        ["Rust needlecord"],
    ]


def test_cloths_that_are_called_alike_are_told_apart():
    rest = {"a": remnant("Seagrass lawn"), "b": remnant("Seagrass lawn", width=800)}
    rest |= {"c": remnant("x" * 60), "d": remnant("x" * 60)}
    names = [cloth["name"] for cloth in plan([wanted("Petite", LAWN, 6)], rest)["given"]["cloths"]]
    assert len(set(names)) == 5 and max(map(len, names)) == 60
    assert names[-1] == "Seagrass lawn 3"


def test_without_the_bolt_only_remnants_are_cut():
    ways = {LAWN: {"bolt": False}}
    told = plan([wanted("Petite", LAWN, 6)], {"r": remnant("Blue basket")}, ways)
    assert told["cloths"] == [{"cloth": LAWN, "remnant": "r"}]


def test_of_too_many_remnants_the_smallest_are_left_out_and_named():
    rest = {f"r{number:02}": remnant(f"Piece {number}", width=500 + number) for number in range(14)}
    rest["last"] = remnant("Scrap", width=300, length=200, use_first=True)
    told = plan([wanted("Petite", LAWN, 6)], rest)
    assert len(told["cloths"]) == 12
    assert told["cloths"][0]["remnant"] == "last"
    assert told["left_out"] == ["r03", "r02", "r01", "r00"]


def test_what_is_made_is_what_the_list_takes():
    rows = [wanted("Everyday", LAWN, 24), wanted("Grand", LAWN, 6), wanted("Grand", CORD, 12)]
    rest = {"r": remnant("Blue basket", use_first=True)}
    told = laid_out(plan(rows, rest))
    strips = [strip for cloth in told["cloths"] for row in cloth["rows"] for strip in row["strips"]]
    assert len(strips) == 42 and told["unplaced"] == []


def test_the_readme_tells_its_layouts_as_they_are():
    rows = [wanted("Everyday", LAWN, 24), wanted("Petite", LAWN, 12), wanted("Grand", LAWN, 12)]
    rest = {"r": remnant("Lawn, blue basket", use_first=True)}
    told = laid_out(plan(rows, rest, {LAWN: {"tear": False}}))
    own, bolt = told["cloths"]
    told_rows = [[round(row["height"]) for row in cloth["rows"]] for cloth in (own, bolt)]
    assert told["optimal"] and told_rows == [[596, 80], [596, 482, 482, 80]]
    readme = " ".join((FIXTURES.parent / "README.md").read_text(encoding="utf-8").split())
    for words in (
        f"{own['used_length']:.0f} of its {own['usable_length']:.0f} mm",
        f"across {bolt['usable_width']:,.0f} mm of the bolt: {bolt['used_length']:,.0f} mm",
        f"{told['bolt_length']:,.0f} mm before washing and squaring",
        f"ask for {told['length_to_buy'] / 1000:.2f} m",
    ):
        assert words in readme
    corded = plan([wanted("Petite", CORD, 12), wanted("Grand", CORD, 24)])["given"]
    in_rows, stacked = [
        answer("buy-list", {**corded, "spare_percent": 0, "stages": stages})["result"]["length_to_buy"] / 1000
        for stages in (2, 3)
    ]
    wide = CLOTHS[CORD]["bolt_width"] / 10
    assert f"{wide:.0f} cm wide take {in_rows:.2f} m in rows alone, and {stacked:.2f} m with stacks" in readme


def test_the_only_elastic_there_is_goes_into_every_size():
    rows = [wanted("Everyday", LAWN, 24), wanted("Petite", CORD, 6)]
    told = plan(rows, elastics={"e": elastic("Braided", knot_takeup=31.5)})
    # worked by hand: 165 + 31.5 + 2 × 20 = 236.5, halves up; 140 + 31.5 + 2 × 20 = 211.5
    assert [strip["elastic"] for strip in told["given"]["strips"]] == [237, 212]
    assert {strip["elastic_name"] for strip in told["given"]["strips"]} == {"e"}
    assert told["estimated"] == []


def test_elastic_is_rounded_to_what_the_ruler_shows():
    told = plan([wanted("Everyday", LAWN, 24)], elastics={"e": elastic("Braided", knot_takeup=31)}, unit="in")
    # worked by hand: 236 / 3.175 = 74.3, so 74 eighths of an inch
    assert told["given"]["strips"][0]["elastic"] == pytest.approx(234.95)


def test_a_knot_that_nobody_measured_is_told():
    told = plan([wanted("Everyday", LAWN, 24)], elastics={"e": elastic("Braided", elastic_width=6)})
    own = answer("elastic-cut-length", {"loop": 165, "elastic_width": 6})["result"]["cut_length"]
    assert told["given"]["strips"][0]["elastic"] == pytest.approx(own, abs=0.5)
    assert told["estimated"] == ["e"]


def test_of_several_elastics_a_size_takes_the_one_it_names():
    sizes = SIZES | {"Grand": SIZES["Grand"] | {"elastic": OTHER}}
    rows = [wanted("Everyday", LAWN, 24), wanted("Grand", LAWN, 6)]
    told = plan(rows, elastics={LAWN: elastic("Narrow"), OTHER: elastic("Wide")}, sizes=sizes)
    assert [strip.get("elastic_name") for strip in told["given"]["strips"]] == [None, OTHER]
    assert told["rolls"] == [{"elastic": OTHER, "roll": "new"}]


def test_the_opened_roll_comes_first_then_whole_ones_then_new_ones():
    told = plan([wanted("Everyday", LAWN, 24)], elastics={"e": elastic("Braided", rolls=2, opened=18500)})
    assert told["rolls"] == [{"elastic": "e", "roll": roll} for roll in ("opened", "whole", "new")]
    assert told["given"]["rolls"] == [
        {"name": "e", "length": 18500, "count": 1, "use_first": True},
        {"name": "e", "length": 50000, "count": 2},
        {"name": "e", "length": 50000, "price": 790},
    ]
    result = laid_out(told)
    assert [pattern["roll"] for pattern in result["elastic"]] == [0] and result["rolls_to_buy"] == 0


def test_without_any_elastic_the_cloth_is_planned_all_the_same():
    told = plan([wanted("Everyday", LAWN, 24)])
    assert told["given"]["rolls"] == told["rolls"] == told["estimated"] == []
    assert laid_out(told)["elastic"] == []


@pytest.mark.parametrize("rows, ways, field", [
    ([wanted("Huge", LAWN, 1)], {}, "sizes.Huge.name"),
    ([wanted("Petite", "Tweed", 1)], {}, "cloths.Tweed.name"),
    ([wanted("Petite", LAWN, 1)], {LAWN: {"fold": 3}}, "fold"),
])  # fmt: skip
def test_a_record_or_choice_that_is_none_is_refused(rows, ways, field):
    with pytest.raises(Problems) as caught:
        plan(rows, ways=ways)
    assert field in [item["field"] for item in caught.value.problems]
