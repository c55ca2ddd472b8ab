"""Strips that wait for a batch; all cases worked by hand."""

from hypothesis import given
from hypothesis import strategies as some

from backend.core.making.waiting import waiting_strips

DAY = "2026-05-02"
PRODUCTS = {
    "E lawn": {"size": "everyday", "cloth": "lawn"},
    "E check": {"size": "everyday", "cloth": "check"},
    "E": {"size": "everyday", "cloth": None},
}


def cut(id, cloth, at=0, **strips):
    lines = [{"size": size, "quantity": count} for size, count in strips.items()]
    return {"kind": "cut", "id": id, "at": at, "day": DAY, "cloth": cloth, "length": 880.0, "lines": lines}


def cut_void(cut):
    return {"kind": "cut-void", "id": f"never {cut}", "at": 99, "day": DAY, "cut": cut}


def result(id, at, made, product="E lawn", batch="126"):
    line = {"product": product, "made": made, "good": made // 2}
    return {
        "kind": "batch-result",
        "id": id,
        "at": at,
        "day": DAY,
        "batch": batch,
        "place": "p",
        "lines": [line],
    }


def batch_void(result):
    return {"kind": "batch-void", "id": f"never {result}", "at": 99, "day": DAY, "result": result}


def waiting(facts, batches=None):
    rows = waiting_strips(facts, batches or {}, PRODUCTS)
    return {(row["cloth"], row["size"]): row["quantity"] for row in rows}


CUTS = [
    cut("a", "lawn", everyday=24, petite=6),
    cut("b", "check", everyday=6),
    cut("c", "lawn", everyday=12),
]
LAWN, CHECK = ("lawn", "everyday"), ("check", "everyday")


def test_strips_of_one_cloth_and_size_add_up_over_all_cuts():
    assert waiting_strips(CUTS, {}, {}) == [
        {"cloth": "check", "size": "everyday", "quantity": 6},
        {"cloth": "lawn", "size": "everyday", "quantity": 36},
        {"cloth": "lawn", "size": "petite", "quantity": 6},
    ]


def test_nothing_cut_is_nothing_waiting():
    assert waiting([]) == waiting([result("r", 5, 24)]) == {}


def test_a_cut_that_never_happened_leaves_no_strips_however_often_that_is_said():
    assert waiting([*CUTS, cut_void("a")]) == {CHECK: 6, LAWN: 12}
    assert waiting([*CUTS, cut_void("a"), {**cut_void("a"), "id": "again"}]) == {CHECK: 6, LAWN: 12}


def test_that_a_cut_never_happened_may_be_known_before_the_cut():
    assert waiting([cut_void("c"), cut_void("on the other phone"), *CUTS]) == waiting(CUTS[:2])


def test_what_a_batch_made_waits_no_more_good_or_not():
    assert waiting([*CUTS, result("r", 5, 30)]) == {CHECK: 6, LAWN: 6, ("lawn", "petite"): 6}
    assert waiting([*CUTS, result("r", 5, 36)]) == {CHECK: 6, ("lawn", "petite"): 6}


def test_a_result_that_never_happened_gives_its_strips_back():
    facts = [*CUTS, result("r", 5, 30), result("s", 6, 6)]
    assert waiting([batch_void("r"), *facts])[LAWN] == 30


def test_what_an_owner_left_out_counts_for_nothing():
    left_out = {"kind": "left-out", "id": "l", "at": 99, "day": DAY, "fact": "r"}
    facts = [*CUTS, result("r", 5, 30)]
    assert waiting([*facts, left_out])[LAWN] == 36
    of_void = {**left_out, "fact": "never r"}
    assert waiting([*facts, batch_void("r"), of_void])[LAWN] == 6


def test_strips_that_nobody_recorded_are_not_owed_by_later_cuts():
    early, late = result("r", 5, 48), cut("d", "lawn", 9, everyday=24)
    assert waiting([late, early]) == {LAWN: 24}
    assert waiting([cut("a", "lawn", 1, everyday=10), early, late]) == {LAWN: 24}


def test_what_was_cut_in_the_same_moment_is_there_to_be_sewn():
    assert waiting([result("a", 5, 24), cut("b", "lawn", 5, everyday=24)]) == {}


def test_a_product_of_no_cloth_is_of_what_its_batch_says():
    line = {"size": "everyday", "cloth": "check", "product": None, "quantity": 6}
    facts = [*CUTS, result("r", 5, 4, "E")]
    assert waiting(facts) == waiting(CUTS)
    assert waiting(facts, {"126": {"lines": [line]}})[CHECK] == 2
    named = {**line, "cloth": "lawn", "product": "E"}
    assert waiting(facts, {"126": {"lines": [named]}})[LAWN] == 32
    # of two cloths the first is used up first
    many = [*CUTS, result("r", 5, 10, "E")]
    told = waiting(many, {"126": {"lines": [{**line, "product": "E"}, named]}})
    assert told == {LAWN: 32, ("lawn", "petite"): 6}


def test_what_cannot_be_read_is_set_aside():
    bent = {**result("r", 5, 30), "lines": "all"}
    assert waiting([*CUTS, bent, {"kind": "cut", "id": "x", "at": "?"}, 5]) == waiting(CUTS)


MANY = [
    *CUTS, cut("d", "lawn", 7, everyday=9), cut_void("c"),
    result("r", 3, 20), result("s", 4, 11, "E check"), result("t", 8, 5), batch_void("t"), result("u", 9, 2),
]  # fmt: skip


@given(some.permutations(range(len(MANY))), some.lists(some.integers(0, len(MANY) - 1), max_size=4))
def test_the_order_of_arrival_changes_nothing_nor_what_comes_twice(order, again):
    # 24 − 20 of lawn and 6 − 11 of check by then, and 9 − 2 more
    assert waiting([MANY[at] for at in [*order, *again]]) == {LAWN: 4 + 7, ("lawn", "petite"): 6}
