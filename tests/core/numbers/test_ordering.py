"""The core's own sort: stable, and quick on long and sorted lists."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.numbers.ordering import in_order, in_text_order

pytestmark = pytest.mark.full


@given(some.lists(some.tuples(some.integers(0, 5), some.integers(0, 1000)), max_size=40))
def test_items_come_in_order_and_ties_stay_as_they_were(items):
    assert in_order(items, lambda item: item[0]) == sorted(items, key=lambda item: item[0])


@given(some.lists(some.text(max_size=4), max_size=20))
def test_texts_come_in_the_order_of_their_characters_numbers(texts):
    assert in_text_order(texts) == sorted(texts)


class Counted(int):
    """A key that counts how often it is compared."""

    times = 0

    def __lt__(self, other):
        Counted.times += 1
        return int(self) < int(other)

    def __le__(self, other):
        Counted.times += 1
        return int(self) <= int(other)


@pytest.mark.parametrize(
    "items", [range(1024), range(1024, 0, -1), [1] * 1024, [n * 37 % 101 for n in range(1024)]]
)
def test_no_list_takes_more_comparisons_than_its_length_times_its_halvings(items):
    Counted.times = 0
    assert in_order(list(items), Counted) == sorted(items)
    assert Counted.times <= 1024 * 11
