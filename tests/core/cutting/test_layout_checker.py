"""The checker itself: it passes a good layout and names what is wrong with a bad one."""

import pytest

from tests.core.cutting.layout_checker import check_layout

STRIP = (3.0, 1.0)


def spot(x, y, turned=False, strip=STRIP):
    return {"x": x, "y": y, "length": strip[0], "width": strip[1], "turned": turned}


TWO_ROWS = [spot(0, 0), spot(3, 0), *[spot(x, 1, True) for x in range(6)]]
PINWHEEL = [spot(0, 0), spot(3, 0, True), spot(1, 3), spot(0, 1, True)]
THIRD_STAGE = [spot(0, 0, True), spot(1, 0), spot(1, 1)]


def test_a_layout_of_rows_passes():
    check_layout(6, 4, STRIP, TWO_ROWS, "across")


def test_an_upright_layout_passes_upright_only():
    upright = [spot(y, x, not turned) for x, y, turned in [(s["x"], s["y"], s["turned"]) for s in TWO_ROWS]]
    check_layout(4, 6, STRIP, upright, "along")
    with pytest.raises(AssertionError, match="together"):
        check_layout(4, 6, STRIP, upright, "across")


def test_an_empty_layout_passes():
    check_layout(1, 1, STRIP, [], "across", nap=True)


@pytest.mark.parametrize("width, length, placed, wrong", [
    (5.9, 4, TWO_ROWS, "outside"),
    (6, 3.9, TWO_ROWS, "outside"),
    (6, 4, [spot(-0.1, 0)], "outside"),
    (6, 4, [*TWO_ROWS, spot(1.5, 2.5)], "overlap"),
    (6, 4, [spot(0, 0), spot(2.9, 0)], "overlap"),
    (6, 4, [spot(0, 0), spot(0, 0)], "overlap"),
    (4, 4, PINWHEEL, "together"),
    (4, 3, THIRD_STAGE, "together"),
    (6, 4, [spot(0, 0, strip=(3.0, 0.9))], "size"),
])  # fmt: skip
def test_what_is_wrong_is_found(width, length, placed, wrong):
    with pytest.raises(AssertionError, match=wrong):
        check_layout(width, length, STRIP, placed, "across")


def test_both_ways_are_wrong_with_nap():
    with pytest.raises(AssertionError, match="both ways"):
        check_layout(6, 4, STRIP, TWO_ROWS, "across", nap=True)
