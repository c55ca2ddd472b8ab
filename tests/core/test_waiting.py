"""Strips that wait for a batch."""

from backend.core.making.waiting import waiting_strips


def cut(cloth, **strips):
    return {"cloth": cloth, "lines": [{"size": size, "quantity": count} for size, count in strips.items()]}


def test_strips_of_one_cloth_and_size_add_up_over_all_cuts():
    cuts = [cut("lawn", everyday=24, petite=6), cut("check", everyday=6), cut("lawn", everyday=12)]
    # worked by hand
    assert waiting_strips(cuts) == [
        {"cloth": "check", "size": "everyday", "quantity": 6},
        {"cloth": "lawn", "size": "everyday", "quantity": 36},
        {"cloth": "lawn", "size": "petite", "quantity": 6},
    ]


def test_the_order_of_the_cuts_changes_nothing():
    cuts = [cut("lawn", everyday=24), cut("check", petite=6), cut("lawn", grand=12)]
    assert waiting_strips(cuts[::-1]) == waiting_strips(cuts)


def test_nothing_cut_is_nothing_waiting():
    assert waiting_strips([]) == []
