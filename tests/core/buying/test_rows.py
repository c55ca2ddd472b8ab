"""Rows of one strip size: the few mixes tried are enough, against trying them all."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.buying.rows import fullest, length_of, pieces_of, row_kind, shortest

pytestmark = pytest.mark.full
KIND = some.builds(
    lambda per_row, height, repeat: {
        "per_row": per_row,
        "row_height": float(-(-height // repeat) * repeat),
        "strip_height": float(height),
    },
    some.integers(1, 25),
    some.integers(1, 25),
    some.sampled_from([1, 1, 2, 7, 10]),
)
KINDS = some.lists(KIND, min_size=1, max_size=2).map(
    lambda kinds: [{"direction": way, **kind} for way, kind in zip(("across", "along"), kinds, strict=False)]
)


def rows_up_to(kinds, most):
    """Every number of rows of each kind."""
    first, second = kinds[0], kinds[-1]
    for one in range(most(first) + 1):
        for other in range(most(second) + 1 if len(kinds) == 2 else 1):
            pieces = one * first["per_row"] + other * second["per_row"]
            length = one * first["row_height"] + other * second["row_height"]
            # the last is a row of which most is not asked for
            counts = zip(kinds, (one, other), strict=False)
            yield (
                pieces,
                length - max([kind["row_height"] - kind["strip_height"] for kind, n in counts if n] + [0]),
            )


@given(KINDS, some.integers(1, 120))
def test_no_rows_give_the_quantity_in_less_length(kinds, quantity):
    bands = shortest(kinds, quantity)
    tried = rows_up_to(kinds, lambda kind: -(-quantity // kind["per_row"]))
    assert pieces_of(bands) >= quantity
    assert length_of(bands) == min(length for pieces, length in tried if pieces >= quantity)


@given(KINDS, some.integers(0, 120))
def test_no_rows_give_more_in_the_same_length(kinds, length):
    bands = fullest(kinds, length)
    tried = list(rows_up_to(kinds, lambda kind: int(length // kind["row_height"]) + 1))
    most = max(pieces for pieces, used in tried if used <= length)
    assert pieces_of(bands) == most
    assert length_of(bands) == min(used for pieces, used in tried if pieces == most)


@given(KINDS, some.integers(1, 100000))
def test_a_large_order_is_answered_at_once_and_exactly(kinds, quantity):
    bands = shortest(kinds, quantity)
    assert pieces_of(bands) >= quantity
    assert pieces_of(fullest(kinds, length_of(bands))) >= quantity
    assert length_of(bands) <= min(length_of(shortest([kind], quantity)) for kind in kinds)


def test_a_row_starts_on_the_repeat():
    across = {"direction": "across", "per_row": 2, "row_height": 120, "strip_height": 110}
    along = {"direction": "along", "per_row": 13, "row_height": 480, "strip_height": 480}
    assert row_kind("across", 482, 110, 1435, 40) == across
    assert row_kind("along", 480, 110, 1435, 40) == along


def test_the_last_row_ends_where_its_strips_end():
    kind = row_kind("across", 482, 110, 600, 640)
    assert length_of(shortest([kind], 1)) == 110
    assert length_of(shortest([kind], 2)) == 750
    assert pieces_of(fullest([kind], 749)) == 1
    assert pieces_of(fullest([kind], 750)) == 2


def test_equal_lengths_keep_to_one_direction():
    kinds = [row_kind("across", 300, 100, 600), row_kind("along", 300, 100, 600)]
    assert shortest(kinds, 12) == [{**kinds[0], "rows": 6}]
