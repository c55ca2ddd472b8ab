"""Sorting that keeps ties in place and stays fast on long or sorted lists.

The phone's own `sorted` mixes ties up, and takes a time that grows with the
square of the length where the list is in order already.
"""


def in_order(items, key):
    """Put items in the order of their keys; equal keys stay as they were.

    Takes: key, a function of an item whose values can be compared with each
    other. Merges runs of twice the length each time: n log n comparisons.
    """
    keys = [key(item) for item in items]
    order = list(range(len(items)))
    length = 1
    while length < len(order):
        merged = []
        for start in range(0, len(order), 2 * length):
            middle = start + length
            _merge(order[start:middle], order[middle : middle + length], keys, merged)
        order = merged
        length *= 2
    return [items[place] for place in order]


def _merge(first, second, keys, merged):
    if not second or keys[first[-1]] <= keys[second[0]]:
        merged += first
        merged += second
        return
    at, count = 0, len(second)
    for place in first:
        while at < count and keys[second[at]] < keys[place]:
            merged.append(second[at])
            at += 1
        merged.append(place)
    merged += second[at:]


def in_text_order(texts):
    """Put texts in the order of their characters' numbers."""
    return in_order(texts, lambda text: text)
