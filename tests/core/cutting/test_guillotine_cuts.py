"""Cuts that free the strips of a remnant: made one after another, they leave the strips and nothing else."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.cutting.remnant.guillotine_cuts import WAYS, cut_apart
from tests.core.cutting.cut_replay import check_cut_apart, replay
from tests.core.planning.mixes import MIX, small_mix

LAYERS = some.integers(1, 6)


def strip(x, y, length, width, turned=False, size=0):
    return {"size": size, "x": x, "y": y, "length": length, "width": width, "turned": turned}


def told(cuts):
    return [(cut["what"], cut["setting"], cut["times"], cut["size"]) for cut in cuts]


def check(asked, result, free, layers):
    sides, placed = (asked["width"], asked["length"]), result["placed"]
    apart = cut_apart(*sides, placed, result["first_cuts"], free, layers)
    check_cut_apart(*sides, placed, apart)
    return apart


@given(MIX, LAYERS, some.booleans())
def test_the_cuts_of_any_mix_free_every_strip(mix, layers, free):
    apart = check(*mix, free, layers)
    assert all(cut["layers"] <= layers for cut in apart["cuts"])


def test_the_cuts_of_many_small_mixes_free_every_strip(how_many):
    for number in range(how_many(60, 1500)):
        asked, result = small_mix(number)
        for free in (False, True):
            check(asked, result, free, 2)


def test_cuts_of_few_stages_change_direction_no_more_often(how_many):
    for number in range(how_many(40, 400)):
        asked, result = small_mix(number, stages=2)
        apart = check(asked, result, False, 1)
        # rows, cross cuts, and trimming what a cross cut leaves
        assert most_turns(asked, apart) <= 3


def most_turns(asked, apart):
    depth = {(0.0, 0.0, asked["width"], asked["length"]): (0, None)}
    for cut in apart["cuts"]:
        for piece in cut["pieces"]:
            rest = (piece["x"], piece["y"], piece["width"], piece["length"])
            turns, before = depth.pop(next(one for one in depth if close(one, rest)))
            turns += cut["what"] != before
            for part in replay_one(piece, cut):
                depth[part] = (turns, cut["what"])
    return max(turns for turns, _ in depth.values())


def close(one, other):
    return all(abs(side - wanted) < 1e-6 for side, wanted in zip(one, other, strict=True))


def replay_one(piece, cut):
    own = dict(cut, pieces=[dict(piece, x=0.0, y=0.0)], layers=1, passes=1, last_layers=1)
    for x, y, across, along in replay(piece["width"], piece["length"], [own]):
        yield (piece["x"] + x, piece["y"] + y, across, along)


def test_rows_come_first_and_like_ones_are_stacked_for_their_cross_cuts():
    # worked by hand: two rows of 110 with a strip each of 482 across, on 500 × 300
    strips = [strip(0, 0, 482, 110), strip(0, 110, 482, 110)]
    apart = cut_apart(500, 300, strips, "across", False, 4)
    assert told(apart["cuts"]) == [("across", 110, 2, None), ("along", 482, 1, 0)]
    assert apart["cuts"][1]["layers"] == 2
    assert [row["length"] for row in apart["rows"]] == [110, 110]
    # 80 mm over at the far end as wide as the cloth, and 18 mm beside each strip
    left = sorted((one["width"], one["length"]) for one in apart["offcuts"])
    assert left == [(18, 110), (18, 110), (500, 80)]


def test_one_layer_at_a_time_takes_a_pass_each():
    strips = [strip(0, 110 * row, 482, 110) for row in range(3)]
    cross = cut_apart(500, 330, strips, "across", False, 2)["cuts"][1]
    assert (cross["layers"], cross["passes"], cross["last_layers"]) == (2, 2, 1)


def test_the_larger_piece_is_left_over_where_cuts_may_run_either_way():
    # worked by hand: 482 × 110 on 900 × 700: 590 × 900 left behind it, or 418 × 700 beside it
    behind = cut_apart(900, 700, [strip(0, 0, 482, 110)], "along", True, 1)
    assert {"x": 0.0, "y": 110.0, "width": 900, "length": 590} in behind["offcuts"]
    # 110 × 482 on 900 × 700, along: 790 × 700 beside it
    beside = cut_apart(900, 700, [strip(0, 0, 482, 110, True)], "across", True, 1)
    assert {"x": 110.0, "y": 0.0, "width": 790, "length": 700} in beside["offcuts"]
    kept = cut_apart(900, 700, [strip(0, 0, 482, 110, True)], "across", False, 1)
    assert {"x": 0.0, "y": 482.0, "width": 900, "length": 218} in kept["offcuts"]


def test_the_largest_is_cut_off_first_and_the_ruler_is_set_once_for_like_parts():
    strips = [strip(0, 0, 500, 80, size=1), strip(0, 80, 500, 110), strip(0, 190, 500, 80, size=1)]
    apart = cut_apart(500, 300, strips, "across", False, 1)
    assert told(apart["cuts"]) == [("across", 110, 1, 0), ("across", 80, 2, 1)]
    assert [one["y"] for one in apart["strips"]] == [0, 110, 190]


def test_a_remnant_that_is_one_strip_needs_no_cut():
    apart = cut_apart(482, 110, [strip(0, 0, 482, 110)], "across", True, 1)
    assert apart["cuts"] == apart["offcuts"] == []
    assert len(apart["strips"]) == len(apart["rows"]) == 1


def test_nothing_to_cut_leaves_the_remnant():
    apart = cut_apart(400, 300, [], "across", True, 1)
    assert apart["cuts"] == apart["strips"] == []
    assert apart["offcuts"] == [{"x": 0.0, "y": 0.0, "width": 400, "length": 300}]


@pytest.mark.parametrize("strips", [
    # over each other
    [strip(0, 0, 100, 50), strip(50, 0, 100, 50)],
    # beside the cloth
    [strip(250, 0, 100, 50)],
    # round a hole in the middle, as no straight cut passes
    [strip(0, 0, 200, 100), strip(200, 0, 200, 100, True), strip(0, 100, 200, 100, True),
     strip(100, 200, 200, 100)],
])  # fmt: skip
def test_what_no_straight_cuts_free_is_told(strips):
    for first in WAYS:
        for free in (False, True):
            assert cut_apart(300, 300, strips, first, free, 1) is None
