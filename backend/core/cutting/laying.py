"""From a part of a plan, its strips and cloths, to kinds of row."""

from ..ordering import in_order
from .grid import divisor_of, in_parts, parts_for
from .plan import Kind, Plan
from .search import Search

COST_PARTS = 10000  # what a mm of the dearest bolt is counted in, where bolts cost differently


class Part:
    """Strips and cloths that share nothing with the rest of a plan, and the search for their layout.

    Takes: strips and cloths, all of the plan, and the numbers of those in this part;
    stacking, whether low strips of a size may lie over each other in a higher row.
    Has: search; unit, what one of its whole costs is worth, in mm of bolt or
    minor units; rates, what a mm of washed bolt is worth, for each cloth; raised,
    what its costs may be too high by for each row.
    """

    def __init__(self, strips, cloths, strip_numbers, cloth_numbers, priced, stacking=False):
        self.strip_numbers = strip_numbers
        self.cloth_numbers = cloth_numbers
        self.strips = [strips[number] for number in strip_numbers]
        self.cloths = [cloths[number] for number in cloth_numbers]
        self.bolts = [index for index, cloth in enumerate(self.cloths) if cloth.length is None]
        self.rates = [_rate(cloth, priced) for cloth in self.cloths]
        self.stacking = stacking
        self.parts = parts_for(self._lengths())
        self.raised = 0.0
        ways = [[self.ways(strip, cloth) for strip in self.strips] for cloth in self.cloths]
        heights = [_heights(row) for row in ways]
        step, self.unit = self._units(heights)
        kinds, stores = [], []
        for index, cloth in enumerate(self.cloths):
            kinds += self._kinds(index, cloth, ways[index], heights[index], step, stores)
        areas = [max(1, int(strip["length"] * strip["width"] / 100)) for strip in self.strips]
        kinds += self._left_out(kinds, areas)
        wanted = [strip["quantity"] for strip in self.strips]
        first = [index for index, cloth in enumerate(self.cloths) if cloth.given["use_first"]]
        self.search = Search(Plan(wanted, kinds, stores, areas, self._charges(), first))

    def _lengths(self):
        found = []
        for cloth in self.cloths:
            found += [cloth.given["repeat"], cloth.given["squaring"]]
            for strip in self.strips:
                found += [strip["length"] + 2 * cloth.loss, strip["width"] + 2 * cloth.loss]
        return found

    def ways(self, strip, cloth):
        """List the ways a strip may lie on a cloth, in whole parts: [(reach, height of its row, turned)]."""
        if strip["cloths"] is not None and cloth.given["name"] not in strip["cloths"]:
            return []
        # what fits as far as a float's last bits can tell fits in whole parts
        return [
            (self._within(reach, cloth.width), self._within(height, cloth.length), turned)
            for reach, height, turned in cloth.ways(strip)
        ]

    def _within(self, length, most):
        parts = in_parts(length, self.parts)
        return parts if most is None else min(parts, in_parts(most, self.parts))

    def _units(self, heights):
        # the whole parts that one of cost is for where all bolts cost alike (else None), and its worth
        bought = [self.rates[index] for index in self.bolts]
        if not bought:
            return 1, 1.0
        if max(bought) > min(bought):
            return None, max(bought) / COST_PARTS
        whole = [height for index in self.bolts for height in heights[index]]
        if len(bought) > 1:
            whole += [in_parts(self.cloths[index].given["squaring"], self.parts) for index in self.bolts]
        step = divisor_of(whole)
        return step, bought[0] * step / self.parts

    def _cost(self, index, height, step):
        # rounded down, so that a bound holds; what would be nothing is raised, and told in `raised`
        if step:
            return height // step
        cost = int(height / self.parts * self.rates[index] / self.unit)
        if not cost:
            self.raised += self.unit
        return max(1, cost)

    def _kinds(self, index, cloth, ways, heights, step, stores):
        store, share = None, 1
        if cloth.length is not None:
            store, share = len(stores), divisor_of(heights)
            stores.append(in_parts(cloth.length, self.parts) // share)
        kinds, before = [], []
        for height in heights:
            for held in self._held(cloth, ways, height):
                kind = Kind(
                    in_parts(cloth.width, self.parts),
                    held,
                    0 if store is not None else self._cost(index, height, step),
                    store,
                    height // share if store is not None else 0,
                    mark=index,
                    ladder=index,
                    height=height,
                    napped=cloth.given["nap"],
                )
                # a higher row must hold something more
                more = held if kind.napped else (kind.pieces, kind.stacks)
                if more not in before:
                    kinds.append(kind)
                    before.append(more)
        return kinds

    def _held(self, cloth, ways, height):
        # the ways to lie in rows of a height: one beside the other, and stacked where that is asked
        held = [
            (size, reach, turned, height // high)
            for size, own in enumerate(ways)
            for reach, high, turned in own
            if high <= height
        ]
        single = [way[:3] + (1,) for way in held]
        # a strip over another would not begin on the print's repeat
        if not self.stacking or cloth.given["repeat"] or held == single:
            return [single]
        return [single, held]

    def _charges(self):
        # one bolt alone is paid for by all layouts that need it: nothing to choose
        if len(self.bolts) < 2:
            return {}
        charges = {}
        for index in self.bolts:
            charge = int(self.cloths[index].given["squaring"] * self.rates[index] / self.unit)
            if charge:
                charges[index] = charge
        return charges

    def _left_out(self, kinds, areas):
        # ways to leave out what no bolt takes: least area before least cost
        dearest, pieces = 0, 0
        for kind in kinds:
            dearest = max(dearest, kind.cost)
        for strip in self.strips:
            pieces += strip["quantity"]
        charges = self._charges()
        factor = 1 + dearest * pieces
        for index in self.bolts:
            factor += charges.get(index, 0)
        on_bolts = [way[0] for kind in kinds if kind.store is None for way in kind.ways]
        return [
            Kind(1, [(size, 1, False, 1)], factor * area, ladder=len(self.cloths))
            for size, area in enumerate(areas)
            if size not in on_bolts
        ]


def _rate(cloth, priced):
    # what a mm of rows on a bolt is worth
    if cloth.length is not None:
        return 0.0
    return (cloth.given["price"] / cloth.given["price_length"] if priced else 1.0) / cloth.kept


def _heights(ways):
    found = []
    for own in ways:
        for _, height, _ in own:
            if height not in found:
                found.append(height)
    return in_order(found, lambda height: height)
