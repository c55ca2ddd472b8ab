"""The checker of plans itself: it passes what cutting-layout lays, and names each rule that is broken."""

import copy

import pytest

from backend.core.catalogue import answer
from tests.core.cutting.plan_checker import check_plan
from tests.core.cutting.plans import nests_plan

PLAN = {
    "cloths": [
        {"name": "lawn", "width": 1400, "selvedge": 10, "shrink_length": 3, "shrink_width": 2, "squaring": 50,
         "fold": 2, "layers": 4, "price": 890},
        {"name": "velvet", "width": 900, "length": 700, "nap": True, "stretch": "across"},
        {"name": "torn", "width": 900, "length": 500, "tear": True, "layers": 4},
    ],
    "strips": [
        {"name": "Everyday", "length": 482, "width": 110, "quantity": 11, "cloths": ["lawn"],
         "direction": "across"},
        {"name": "Petite", "length": 384, "width": 80, "quantity": 9, "cloths": ["lawn", "velvet"],
         "direction": "across"},
        {"name": "Grand", "length": 596, "width": 140, "quantity": 2, "cloths": ["torn"]},
        {"name": "Endless", "length": 5000, "width": 3000, "quantity": 1},
    ],
}  # fmt: skip


@pytest.fixture(scope="module")
def laid():
    return answer("cutting-layout", PLAN)["result"]


def test_what_is_laid_out_passes(laid):
    check_plan(PLAN, laid)


def rows(result, cloth):
    return result["cloths"][cloth]["rows"]


def cut(result, cloth, what):
    return next(one for one in result["cloths"][cloth]["cuts"] if one["what"] == what)


def change(target, **values):
    target.update(values)


def shorten(plan, result):
    change(plan["cloths"][1], length=79)
    change(result["cloths"][1], usable_length=79)


def two_beside(result):
    return next(row for row in rows(result, 0) if len(row["strips"]) == 2)


def turn_one(plan, result):
    laid = result["cloths"][1]
    change(plan["strips"][1], direction="best")
    change(plan["cloths"][1], stretch="none", length=2000)
    last = laid["rows"][-1]
    change(last, height=384, strips=[{**last["strips"][0], "turned": True}])
    change(laid, usable_length=2000, used_length=last["y"] + 384)


def leave_out(plan, result):
    laid = result["cloths"][0]
    number = next(n for n, row in enumerate(laid["rows"]) if len(row["strips"]) == 2)
    gone = laid["rows"][number]["strips"].pop()
    result["unplaced"].insert(0, {"name": gone["name"], "strip": gone["strip"], "quantity": 1})
    # the cuts are those of the rows, one strip fewer in one of them
    alike = {"layers": 1, "passes": 1, "last_layers": 1, "what": "cross", "strip": gone["strip"]}
    rows_cut = [one for one in laid["cuts"] if one["what"] == "row"]
    cross_cuts = [
        {**alike, "setting": gone["length"], "times": len(row["strips"]), "rows": [index]}
        for index, row in enumerate(laid["rows"])
    ]
    laid["cuts"] = rows_cut + cross_cuts


def trim(result):
    cuts = result["cloths"][0]["cuts"]
    cuts.append({**cuts[-1], "what": "trim", "setting": 1.0})


def offcut(result, **where):
    result["cloths"][1]["offcuts"].append(where)


SPOILED = {
    "outside the width": lambda plan, r: change(rows(r, 0)[0]["strips"][-1], x=1300),
    "outside its row": lambda plan, r: change(rows(r, 0)[0]["strips"][0], y=-1),
    "strips overlap": lambda plan, r: change(two_beside(r)["strips"][1], x=10),
    "rows do not follow": lambda plan, r: change(rows(r, 0)[1], y=rows(r, 0)[1]["y"] - 1),
    "an empty row": lambda plan, r: change(rows(r, 0)[-1], strips=[]),
    "rows end outside": shorten,
    "not the size asked for": lambda plan, r: change(rows(r, 0)[0]["strips"][0], width=100),
    "another strip's name": lambda plan, r: change(rows(r, 0)[0]["strips"][0], name="Mini"),
    "not the quantity": lambda plan, r: change(plan["strips"][0], quantity=12),
    "not allowed": lambda plan, r: change(plan["strips"][1], cloths=["lawn"]),
    "against its direction": lambda plan, r: change(plan["strips"][1], direction="along"),
    "both ways on a nap": turn_one,
    "beside the repeat": lambda plan, r: change(plan["cloths"][0], repeat=45),
    "another usable width": lambda plan, r: change(plan["cloths"][0], shrink_width=3),
    "another usable length": lambda plan, r: change(plan["cloths"][1], squaring=1),
    "another used length": lambda plan, r: change(r["cloths"][0], used_length=1),
    "needs another length": lambda plan, r: change(plan["cloths"][0], squaring=60),
    "not what the shop cuts": lambda plan, r: change(r["cloths"][0], length_to_buy=r["length_to_buy"] + 1),
    "buys another length": lambda plan, r: change(r["cloths"][0], length_to_buy=r["length_to_buy"] + 100),
    "another sum": lambda plan, r: change(r, bolt_length=1),
    "another cost": lambda plan, r: change(r, cost=r["cost"] + 1),
    "a bound above": lambda plan, r: change(r, cost_bound=r["cost_bound"] * 2 + 1),
    "another gap": lambda plan, r: change(r, gap=r["gap"] + 1),
    "another waste": lambda plan, r: change(r, waste=r["waste"] + 1),
    "left out though": leave_out,
    "unplaced nothing": lambda plan, r: change(r["unplaced"][0], quantity=0),
    "rows are cut first": lambda plan, r: r["cloths"][0]["cuts"].reverse(),
    "another fold": lambda plan, r: change(cut(r, 0, "row"), layers=1),
    "rows out of order": lambda plan, r: cut(r, 0, "row")["rows"].reverse(),
    "a row of another height": lambda plan, r: change(cut(r, 0, "row"), setting=1),
    "cut another number of times": lambda plan, r: change(cut(r, 0, "row"), times=99),
    "more layers than asked": lambda plan, r: change(plan["cloths"][0], layers=1),
    "another number of cross cuts": lambda plan, r: change(cut(r, 0, "cross"), times=9),
    "a cross cut elsewhere": lambda plan, r: change(cut(r, 0, "cross"), setting=1),
    "other passes": lambda plan, r: change(cut(r, 0, "cross"), passes=cut(r, 0, "cross")["passes"] + 1),
    "other strips are trimmed": lambda plan, r: trim(r),
    "an offcut outside": lambda plan, r: offcut(r, x=-1, y=0, width=600, length=600),
    "an offcut too small": lambda plan, r: offcut(r, x=0, y=0, width=1, length=1),
    "another cloth's name": lambda plan, r: change(r["cloths"][0], name="Lawn"),
    "other cloths": lambda plan, r: change(r["cloths"][0], cloth=1),
    "more settings than cuts": lambda plan, r: change(r, settings=1000),
}  # fmt: skip


@pytest.mark.parametrize("wrong", SPOILED)
def test_a_broken_rule_is_named(laid, wrong):
    plan, spoiled = copy.deepcopy(PLAN), copy.deepcopy(laid)
    SPOILED[wrong](plan, spoiled)
    with pytest.raises(AssertionError, match=wrong):
        check_plan(plan, spoiled)


STACKED = {
    "cloths": [{"name": "lawn", "width": 1000}],
    "strips": [
        {"name": "High", "length": 480, "width": 100, "quantity": 5, "direction": "along"},
        {"name": "Low", "length": 500, "width": 110, "quantity": 4, "direction": "across"},
    ],
    "stages": 3,
}
SPOILED_STACKS = {
    "two stages of cuts leave strips together": lambda plan, r: change(plan, stages=2),
    "other stacks are cut apart": lambda plan, r: change(cut(r, 0, "stack"), times=2),
    "another number of cross cuts": lambda plan, r: change(cut(r, 0, "cross"), times=9),
}


# strips of one size over longer ones of the other
NESTED = nests_plan(404)
SPOILED_NESTS = {
    "wider strips over a narrow one": lambda r: turn_over(mixed(r)),
    "other stacks are cut apart": lambda r: change(cut(r, 0, "stack"), times=9),
    "other strips are trimmed": lambda r: change(cut(r, 0, "trim"), setting=1),
}


def mixed(result):
    """Find a stack of strips of two sizes, from below."""
    for row in rows(result, 0):
        for x in {spot["x"] for spot in row["strips"]}:
            stack = [spot for spot in row["strips"] if spot["x"] == x]
            if len({spot["strip"] for spot in stack}) > 1:
                return stack
    raise AssertionError("no mixed stack")


def turn_over(stack):
    # the last of it below the others
    y = stack[0]["y"]
    for spot in stack[-1:] + stack[:-1]:
        spot["y"] = y
        y += spot["length"] if spot["turned"] else spot["width"]


def test_a_mixed_stack_passes():
    check_plan(NESTED, answer("cutting-layout", NESTED)["result"])


@pytest.mark.parametrize("wrong", SPOILED_NESTS)
def test_a_broken_rule_of_mixed_stacks_is_named(wrong):
    spoiled = answer("cutting-layout", NESTED)["result"]
    SPOILED_NESTS[wrong](spoiled)
    with pytest.raises(AssertionError, match=wrong):
        check_plan(NESTED, spoiled)


def test_a_stack_passes():
    check_plan(STACKED, answer("cutting-layout", STACKED)["result"])


@pytest.mark.parametrize("wrong", SPOILED_STACKS)
def test_a_broken_rule_of_stacks_is_named(wrong):
    plan, spoiled = copy.deepcopy(STACKED), answer("cutting-layout", STACKED)["result"]
    SPOILED_STACKS[wrong](plan, spoiled)
    with pytest.raises(AssertionError, match=wrong):
        check_plan(plan, spoiled)
