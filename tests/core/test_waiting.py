"""Strips that wait for a batch."""

from backend.core.making.waiting import waiting_strips


def cut(id, cloth, **strips):
    lines = [{"size": size, "quantity": count} for size, count in strips.items()]
    return {"id": id, "cloth": cloth, "lines": lines}


CUTS = [
    cut("a", "lawn", everyday=24, petite=6),
    cut("b", "check", everyday=6),
    cut("c", "lawn", everyday=12),
]


def test_strips_of_one_cloth_and_size_add_up_over_all_cuts():
    # worked by hand
    assert waiting_strips(CUTS, []) == [
        {"cloth": "check", "size": "everyday", "quantity": 6},
        {"cloth": "lawn", "size": "everyday", "quantity": 36},
        {"cloth": "lawn", "size": "petite", "quantity": 6},
    ]


def test_the_order_of_the_cuts_changes_nothing():
    assert waiting_strips(CUTS[::-1], []) == waiting_strips(CUTS, [])


def test_nothing_cut_is_nothing_waiting():
    assert waiting_strips([], []) == []


def test_a_cut_that_never_happened_leaves_no_strips_however_often_that_is_said():
    never = [{"cut": "a"}]
    # worked by hand
    assert waiting_strips(CUTS, never) == [
        {"cloth": "check", "size": "everyday", "quantity": 6},
        {"cloth": "lawn", "size": "everyday", "quantity": 12},
    ]
    assert waiting_strips(CUTS, never * 3) == waiting_strips(CUTS, never)


def test_that_a_cut_never_happened_may_be_known_before_the_cut():
    never = [{"cut": "c"}, {"cut": "on the other phone"}]
    assert waiting_strips(CUTS[:2], never) == waiting_strips(CUTS[:2], [])
    assert waiting_strips(CUTS, never) == waiting_strips(CUTS[:2], [])
