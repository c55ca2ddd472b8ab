"""The dearest guillotine layout of a small sheet by exhaustive recursion, from the definition alone."""

from functools import cache


def dearest(width, length, sizes, rotate, stages, unlimited=False):
    """Try every cut at every whole millimetre; returns the most that layouts are worth.

    Takes: sizes, [{length, width, value, quantity?}] in whole numbers; stages, 2, 3 or "any".
    """
    limits = tuple(None if unlimited else size.get("quantity") for size in sizes)

    def fitting(w, h):
        for number, size in enumerate(sizes):
            lying = {(size["length"], size["width"])}
            if rotate:
                lying.add((size["width"], size["length"]))
            if any(across <= w and along <= h for across, along in lying) and limits[number] != 0:
                yield number, size["value"]

    @cache
    def holdings(w, h, depth, axis):
        """Map each way of taking limited sizes to the most the rest of the part is worth.

        `depth` is how many stages may follow, None for any; `axis` the way of their first cuts, None for any.
        """
        found = {(0,) * len(sizes): 0}
        for number, value in fitting(w, h):
            taken = tuple(int(other == number and limits[number] is not None) for other in range(len(sizes)))
            found[taken] = max(value, found.get(taken, 0))
        if depth == 0:
            return undominated(found)
        for way in ("x", "y") if axis is None else (axis,):
            whole = w if way == "x" else h
            for cut in range(1, whole):
                # the near part is not cut this way again, or it would have been cut there
                inner = None if depth is None else depth - 1
                other = None if depth is None else ("y" if way == "x" else "x")
                near = (cut, h) if way == "x" else (w, cut)
                far = (w - cut, h) if way == "x" else (w, h - cut)
                for one, value in holdings(*near, inner, other).items():
                    for two, more in holdings(*far, depth, way if depth is not None else None).items():
                        both = tuple(a + b for a, b in zip(one, two, strict=True))
                        if all(most is None or n <= most for n, most in zip(both, limits, strict=True)):
                            found[both] = max(value + more, found.get(both, 0))
            # nothing is cut off this way: its parts are the part itself
            if depth is not None:
                for taken, value in holdings(w, h, depth - 1, "y" if way == "x" else "x").items():
                    found[taken] = max(value, found.get(taken, 0))
        return undominated(found)

    if stages == "any":
        return max(holdings(width, length, None, None).values())
    return max(max(holdings(width, length, stages, axis).values()) for axis in ("x", "y"))


def undominated(found):
    """Leave out what takes no less than another and is worth no more."""
    kept = {}
    for taken in sorted(found, key=lambda taken: (-found[taken], taken)):
        if not any(all(a <= b for a, b in zip(other, taken, strict=True)) for other in kept):
            kept[taken] = found[taken]
    return kept
