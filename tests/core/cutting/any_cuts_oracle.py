"""The least bolt length of layouts of any guillotine cuts, by trying all ways to part a few strips.

A set of strips is one strip, or two sets one behind the other, or two sets side by side.
"""

from functools import cache
from itertools import product


def least_any_cuts(plan):
    """Find the least mm of a bolt, the first cloth, after what the remnants take; whole mm, few strips."""
    bolt, *remnants = plan["cloths"]
    strips = plan["strips"]

    def ways(number, cloth):
        strip = strips[number]
        if strip.get("cloths") is not None and cloth["name"] not in strip["cloths"]:
            return []
        across, along = (strip["length"], strip["width"]), (strip["width"], strip["length"])
        return {"across": [across], "along": [along]}.get(strip["direction"], [across, along])

    def length_on(cloth):
        @cache
        def least(counts, width):
            # the least length of cloth so wide that these strips are cut from
            if sum(counts) == 1:
                own = [along for across, along in ways(counts.index(1), cloth) if across <= width]
                return min(own, default=float("inf"))
            best = float("inf")
            for part in product(*(range(count + 1) for count in counts)):
                rest = tuple(count - own for count, own in zip(counts, part, strict=True))
                if sum(part) and sum(rest):
                    best = min(best, least(part, width) + least(rest, width))
                    for left in _sums(part, width):
                        best = min(best, max(least(part, left), least(rest, width - left)))
            return best

        def _sums(counts, width):
            # a set is as wide as some of its strips side by side
            found = {0}
            for number, count in enumerate(counts):
                for across, _ in ways(number, cloth) * count:
                    found |= {one + across for one in found if one + across < width}
            return sorted(found - {0})

        return least

    on_bolt, on_remnants = length_on(bolt), [(length_on(cloth), cloth) for cloth in remnants]

    def after(counts, left):
        if not sum(counts):
            return 0
        if not left:
            return on_bolt(counts, bolt["width"])
        least, cloth = left[0]
        best = after(counts, left[1:])
        for part in product(*(range(count + 1) for count in counts)):
            if sum(part) and least(part, cloth["width"]) <= cloth["length"]:
                rest = tuple(count - own for count, own in zip(counts, part, strict=True))
                best = min(best, after(rest, left[1:]))
        return best

    return after(tuple(strip["quantity"] for strip in strips), on_remnants)
