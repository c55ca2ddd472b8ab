"""From a traced layout to where each strip lies."""

from .dynamic_programme import ACROSS, ALONG


def pieces_in(tree, grid, limits, swapped):
    """Turn the points of a traced layout back into sizes, without those above their limits.

    Takes: tree, (axis, [trees]) or (point across, point along, size); swapped,
    whether across and along were exchanged.
    Returns: (axis, [trees]), (size, turned) for a strip, or None for nothing.
    """
    left = list(limits)
    top = [None]
    waiting = [(tree, top, 0)]
    while waiting:
        part, owner, place = waiting.pop()
        if part is None:
            continue
        if isinstance(part[1], list):
            inner = [None] * len(part[1])
            owner[place] = (1 - part[0] if swapped else part[0], inner)
            waiting += [(one, inner, number) for number, one in enumerate(part[1])]
        elif left[part[2]] is None or left[part[2]] > 0:
            owner[place] = (part[2], grid.turned[part])
            if left[part[2]]:
                left[part[2]] -= 1
    return top[0]


def count_pieces(tree):
    """Count the strips of a layout."""
    return len([part for part, _ in _parts(tree) if not isinstance(part[1], list)])


def lay_out(tree, sizes):
    """Place the strips of a layout, each as near the near left corner as its cuts let it.

    Takes: tree, as `pieces_in` gives it; sizes, [{length, width}] in mm.
    Returns: [{size, x, y, length, width, turned}], in the order of the cuts.
    """
    parts = _parts(tree)
    extents = [None] * len(parts)
    # inner parts come after the part they are in
    for number in range(len(parts) - 1, -1, -1):
        part, inner = parts[number]
        if isinstance(part[1], list):
            extents[number] = _together(part[0], [extents[one] for one in inner])
        else:
            size = sizes[part[0]]
            lying = (size["length"], size["width"])
            extents[number] = (lying[1], lying[0]) if part[1] else lying
    places, placed = [(0.0, 0.0)] * len(parts), []
    for number, (part, inner) in enumerate(parts):
        x, y = places[number]
        if not isinstance(part[1], list):
            size = sizes[part[0]]
            placed.append({
                "size": part[0], "x": x, "y": y,
                "length": size["length"], "width": size["width"], "turned": part[1],
            })  # fmt: skip
        for one in inner:
            places[one] = (x, y)
            if part[0] == ACROSS:
                x += extents[one][ACROSS]
            else:
                y += extents[one][ALONG]
    return placed


def _together(axis, extents):
    across = along = 0.0
    for one in extents:
        across = across + one[ACROSS] if axis == ACROSS else max(across, one[ACROSS])
        along = along + one[ALONG] if axis == ALONG else max(along, one[ALONG])
    return across, along


def _parts(tree):
    # every part with the numbers of those in it, each before them
    if tree is None:
        return []
    parts, at = [(tree, [])], 0
    while at < len(parts):
        part, inner = parts[at]
        if isinstance(part[1], list):
            for one in part[1]:
                if one is not None:
                    inner.append(len(parts))
                    parts.append((one, []))
        at += 1
    return parts
