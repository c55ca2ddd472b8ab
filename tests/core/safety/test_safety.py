"""The checklist: real content for every tool and cloth, and firm refusals."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.catalogue import answer
from backend.core.presenting.wording import word
from backend.core.safety import safe_cutting_checklist as checklist
from backend.core.safety.at_the_table import at_the_table
from backend.core.safety.terms import (
    BLADES,
    CLOTH_GROUPS,
    CLOTHS,
    CONDITIONS,
    CUTTING_TOOLS,
    TOOL_GROUPS,
    TOOLS,
    WHENS,
)

NOT_TORN = ("knit", "pile", "cord", "gauze", "stretch", "bias")
EVERY_DAY = (
    {},
    {"children_near": True, "layers": 3, "minutes": 60, "helpers": 1, "blade_cuts": 100000},
    {"by_child": True},
)


def ask(tool, cloth="lawn", **more):
    return answer("safe-cutting-checklist", {"tool": tool, "cloth": cloth, **more})


def texts(tool, cloth="lawn", **more):
    return " ".join(item["text"] for item in ask(tool, cloth, **more)["result"]["items"])


def musts(result, when=WHENS):
    return [item for item in result["items"] if item["must"] and item["when"] in when]


def cloth_for(tool):
    return [cloth for cloth in CLOTHS if tool != "tearing" or cloth not in NOT_TORN]


@pytest.mark.parametrize("tool", TOOLS)
def test_every_tool_has_musts_before_during_and_after(tool):
    for cloth in cloth_for(tool):
        result = ask(tool, cloth)["result"]
        assert [bool(musts(result, [when])) for when in WHENS] == [True, True, True], cloth


@pytest.mark.parametrize("tool", TOOLS)
def test_the_musts_of_a_tool_fit_on_one_screen(tool):
    for cloth in cloth_for(tool):
        assert 6 <= len(musts(ask(tool, cloth)["result"])) <= 9
        assert len(musts(ask(tool, cloth, helpers=3, blade_cuts=100000)["result"])) <= 11


@pytest.mark.parametrize("tool", TOOLS)
def test_every_tool_answers_for_every_cloth(tool):
    for cloth in CLOTHS:
        result = ask(tool, cloth)["result"]
        assert bool(result["items"]) == result["allowed"]
        assert bool(result["reason"]) == bool(result["use_instead"]) == (not result["allowed"])
        assert result["disposal"] and "certificate" in result["caution"]


def test_item_ids_are_unique():
    ids = [item["id"] for item in checklist.ITEMS]
    assert len(ids) == len(set(ids))


def test_no_item_is_without_its_reason_its_source_and_when_it_applies():
    for tool in TOOLS:
        for cloth in CLOTHS:
            for more in EVERY_DAY:
                for item in ask(tool, cloth, **more)["result"]["items"]:
                    assert item["text"].endswith("."), item
                    assert item["reason"].endswith(".") and item["reason"] != item["text"], item
                    assert item["applies"] and item["source"], item


def test_no_two_items_share_their_reason():
    reasons = [item["reason"] for item in checklist.ITEMS]
    assert len(reasons) == len(set(reasons))


def test_every_item_is_reached_by_some_tool_cloth_and_day():
    reached = set()
    for tool in TOOLS:
        for cloth in CLOTHS:
            for more in EVERY_DAY + ({"layers": 3, "helpers": 1},):
                reached.update(item["id"] for item in ask(tool, cloth, **more)["result"]["items"])
    assert reached == {item["id"] for item in checklist.ITEMS}
    assert len(reached) >= 45


def test_items_name_only_known_tools_cloths_and_conditions():
    for item in checklist.ITEMS:
        assert item["tools"] in TOOL_GROUPS or item["tools"] in TOOLS
        assert item["cloths"] in CLOTH_GROUPS or item["cloths"] in CLOTHS
        assert item["only"] in CONDITIONS and item["when"] in WHENS


def test_the_items_come_in_the_order_of_the_work_musts_first():
    items = ask("rotary cutter", "cord", helpers=1, layers=2)["result"]["items"]
    order = [(WHENS.index(item["when"]), not item["must"]) for item in items]
    assert order == sorted(order)


@pytest.mark.parametrize("cloth", NOT_TORN)
def test_a_cloth_that_does_not_tear_is_refused_with_what_to_use_instead(cloth):
    result = ask("tearing", cloth)["result"]
    assert not result["allowed"] and result["items"] == []
    assert "shears" in result["use_instead"] and "rotary cutter" in result["use_instead"]
    assert ask(result["instead_tool"], cloth)["result"]["allowed"]


@pytest.mark.parametrize("cloth", NOT_TORN)
@pytest.mark.parametrize("child", ["children_near", "by_child"])
def test_nobody_is_told_to_take_a_cutter_while_a_child_is_near(cloth, child):
    result = ask("tearing", cloth, **{child: True})["result"]
    assert not result["allowed"] and result["instead_tool"] is None
    assert not any(tool in result["use_instead"] for tool in ("cutter", "shears", "knife"))


def test_a_powered_knife_beside_a_child_waits_and_nothing_else_is_suggested():
    result = ask("powered knife", children_near=True)["result"]
    assert (result["instead_tool"], result["use_instead"]) == (None, "Wait until no child is near.")


def test_the_verdict_clears_nothing():
    told = {
        ask(tool, cloth, layers=layers)["result"]["verdict"]
        for tool in TOOLS
        for cloth in CLOTHS
        for layers in (1, 500)
    }
    assert told == {"The usual cautions for this work", "Not so many at once", "Not this way"}


@pytest.mark.parametrize("tool", CUTTING_TOOLS)
def test_more_than_the_usual_plies_are_not_so_many_at_once(tool):
    most = ask(tool)["result"]["most_layers"]
    assert ask(tool, layers=most)["result"]["verdict"] == "The usual cautions for this work"
    assert ask(tool, layers=most + 1)["result"]["verdict"] == "Not so many at once"


def test_only_training_for_the_powered_knife_cannot_be_skipped():
    assert [item["id"] for item in checklist.ITEMS if not item["skippable"]] == ["powered-trained"]


def test_what_runs_on_a_battery_is_without_it_before_its_blade_is_touched():
    for item in checklist.ITEMS:
        if item["tools"] == "powered knife" and "nplug" in item["text"]:
            assert "battery" in item["text"], item


@pytest.mark.parametrize("tool", ["powered knife", "sewing machine", "iron"])
def test_mains_tools_are_fed_through_a_residual_current_device(tool):
    assert "residual current device" in texts(tool)


@pytest.mark.parametrize(
    "tool, hurt, first_aid",
    [(tool, "cut", "press a clean pad") for tool in BLADES]
    + [("iron", "burn", "20 minutes"), ("sewing machine", "needle", "see a doctor"),
       ("hand needle", "needle", "see a doctor")],
)  # fmt: skip
def test_first_aid_is_told_for_what_the_tool_does(tool, hurt, first_aid):
    said = texts(tool)
    assert hurt in said and first_aid in said
    assert "your local emergency number" in said


@pytest.mark.parametrize("cloth", ["lawn", "woven"])
def test_a_plain_weave_may_be_torn(cloth):
    assert ask("tearing", cloth)["result"]["allowed"]


@pytest.mark.parametrize("tool", BLADES + ("iron",))
def test_a_child_uses_neither_blade_nor_iron(tool):
    result = ask(tool, by_child=True)["result"]
    assert not result["allowed"] and "child" in result["reason"] and "adult" in result["use_instead"]


def test_a_child_sews_only_with_an_adult_beside():
    result = ask("sewing machine", by_child=True)["result"]
    assert result["allowed"]
    assert any("adult sits beside" in item["text"] for item in musts(result))
    assert "adult sits beside" not in texts("sewing machine")


@pytest.mark.parametrize("tool", [tool for tool in TOOLS if tool != "powered knife"])
def test_a_child_near_adds_a_must_to_every_list(tool):
    alone, near = ask(tool)["result"], ask(tool, children_near=True)["result"]
    assert len(musts(near)) == len(musts(alone)) + 1


def test_the_powered_knife_has_guard_glove_plug_and_training_among_its_musts():
    said = " ".join(item["text"] for item in musts(ask("powered knife")["result"]))
    for words in (
        "guard down to the stack",
        "hands clear of the blade",
        "cut-resistant glove on the holding hand",
        "take its battery out before you touch",
        "trained adult",
    ):
        assert words in said


@pytest.mark.parametrize("tool", ["rotary cutter", "shears", "snips"])
def test_the_blade_is_closed_and_laid_down_before_the_phone_is_touched(tool):
    said = [item["text"] for item in musts(ask(tool)["result"], ["during"])]
    assert "Close and lay down the blade before touching the phone." in said


@pytest.mark.parametrize("tool", CUTTING_TOOLS)
def test_what_is_said_beside_a_cut_are_musts_of_the_list_whatever_the_cloth(tool):
    told = at_the_table(tool)
    said = [*told["musts"], told["before_phone"]] if told["before_phone"] else told["musts"]
    assert told["musts"]
    for cloth in cloth_for(tool):
        listed = [item["text"] for item in musts(ask(tool, cloth)["result"], ("during",))]
        assert set(said) <= set(listed)


def test_a_powered_knife_is_switched_off_before_the_phone_is_touched():
    assert at_the_table("powered knife")["before_phone"].startswith("Switch off")
    assert at_the_table("rotary cutter")["before_phone"].startswith("Close and lay down the blade")


def test_the_rotary_cutter_list_holds_the_published_advice():
    # youth sewing-contest safety guide, as catalogued: cover after use, cut away
    # from the body, fingers off the ruler's edge, mat and ruler always, stand,
    # blade vertical, old blades wrapped, shoes, never catch a falling tool
    said = texts("rotary cutter")
    for words in ("Close the blade after every cut", "away from your body", "well inside its edge",
                  "on a cutting mat, along a ruler", "Stand to cut", "upright", "Wrap an old blade",
                  "closed shoes", "Never catch a falling"):  # fmt: skip
        assert words in said


def test_too_many_layers_are_said_with_the_passes_they_take():
    answered = ask("rotary cutter", "woven", layers=14)
    assert [word(note) for note in answered["notes"]] == ["not so many at once: 6 is usual, so take 3 passes"]


def test_a_layer_too_thick_for_the_tool_is_said_in_its_unit():
    notes = ask("shears", "pile", layer_thickness=4)["notes"]
    assert [word(note, "mm") for note in notes] == [
        "one ply of 4 mm is more than this tool usually takes, 2.5 mm"
    ]


def test_a_blade_that_is_due_is_a_must_before_the_work_and_a_note():
    answered = ask("shears", "cord", blade_cuts=3000)
    assert "blade-due" in [item["id"] for item in musts(answered["result"], ["before"])]
    assert [word(note) for note in answered["notes"]] == [
        "3000 cuts made: change or sharpen the blade, usual after about 3000"
    ]


def test_nothing_claims_to_comply_with_a_law():
    for item in checklist.ITEMS:
        for said in (item["text"], item["reason"]):
            assert "compl" not in said.lower() and "guarante" not in said.lower()


@given(
    tool=some.sampled_from(["rotary cutter", "shears", "powered knife", "snips"]),
    cloth=some.sampled_from(CLOTHS),
    layers=some.integers(1, 500),
    thickness=some.floats(0.05, 20),
)
def test_the_passes_are_just_enough_for_the_layers(tool, cloth, layers, thickness):
    result = ask(tool, cloth, layers=layers, layer_thickness=thickness)["result"]
    most, passes = result["most_layers"], result["passes"]
    if passes is None:
        assert most == 0
    else:
        assert (passes - 1) * most < layers <= passes * most
        assert result["layers_ok"] == (passes == 1)


@given(tool=some.sampled_from(TOOLS), minutes=some.floats(0, 720))
def test_nobody_works_longer_than_fifty_minutes_without_a_break(tool, minutes):
    breaks = ask(tool, minutes=minutes)["result"]["breaks"]
    ends = [0] + [each["after"] for each in breaks] + [minutes]
    assert all(later - earlier <= 50 for earlier, later in pairwise(ends))
    assert all(0 < each["after"] < minutes for each in breaks)
    assert all(5 <= each["rest"] <= 10 and each["do"] for each in breaks)


@pytest.mark.parametrize("tool", TOOLS)
def test_after_each_tool_something_is_asked_for(tool):
    asked = at_the_table(tool)["after"]
    assert asked and all(set(item) == {"id", "text"} for item in asked)
    after = {item["id"] for item in checklist.ITEMS if item["when"] == "after" and item["must"]}
    assert {item["id"] for item in asked} <= after
