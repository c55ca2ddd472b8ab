"""From a component of a plan, its strips and cloths, to types of row."""

from ...numbers.money import add_up
from ...numbers.ordering import in_order
from ...numbers.whole_parts import FINEST, divisor_of, in_parts, parts_for
from ..rows.branch_and_bound import BranchAndBound
from ..rows.problem import Problem, RowType
from .cloths import may_be_cut_from
from .nests import Nests
from .placing import Laid, length_of
from .purchase import Purchase
from .till import Till

MOST_COST = 9007199254740992  # more than all costs together may be
COST_PARTS = 10000  # what a mm of the dearest bolt is counted in, where bolts cost differently


class Component:
    """Strips and cloths that share nothing with the rest of a plan, and the search for their layout.

    Takes: strips and cloths, all of the plan, and the numbers of those in this component;
    stacking, whether low strips of a size may lie over each other in a higher row;
    charging, whether the squaring of each of several bolts is a cost where it is used;
    areas, as another component counts them: (areas, exact_areas).
    Has: search; demand, of each strip; stores, the length of each remnant in parts;
    parts_of_mm, what lengths are whole numbers of; cost_unit, what one of its whole costs
    is worth, in mm of bolt or minor units, and coarse, by how many powers of ten that was raised; areas,
    of a strip of each size, and exact_areas, whether no area is rounded where strips may be left out;
    rates, what a mm of washed bolt is worth, for each cloth; overcharge, what its costs may be too high
    by for each row; left_out_cost, of the least area left out: more than all rows can cost.
    """

    def __init__(self, strips, cloths, strip_numbers, cloth_numbers, priced, stacking=False, charging=True,
                 areas=None):  # fmt: skip
        self.plan = (strips, cloths, priced)
        self.strip_numbers = strip_numbers
        self.cloth_numbers = cloth_numbers
        self.strips = [strips[number] for number in strip_numbers]
        self.cloths = [cloths[number] for number in cloth_numbers]
        self.bolts = [index for index, cloth in enumerate(self.cloths) if cloth.length is None]
        self.rates = [_rate(cloth, priced) for cloth in self.cloths]
        self.stacking, self.charging = stacking, charging
        self.demand = [strip["quantity"] for strip in self.strips]
        self.parts_of_mm = parts_for(self._lengths())
        ways = [[self.ways(strip, cloth) for strip in self.strips] for cloth in self.cloths]
        heights = [self._row_heights(cloth, own) for cloth, own in zip(self.cloths, ways)]
        self.coarse = 0
        row_types = self._costed(ways, heights, areas)
        while row_types is None:
            self.coarse += 1
            row_types = self._costed(ways, heights, areas)
        first = [index for index, cloth in enumerate(self.cloths) if cloth.given["use_first"]]
        problem = Problem(self.demand, row_types, self.stores, self.areas, self._charges(), first)
        self.search = BranchAndBound(problem)
        numbers = [self.cloth_numbers[index] for index in self.bolts]
        self.till = Till(numbers, {number: cloths[number] for number in numbers}, priced, self._lowest_rows())
        self.purchase, self.nests = None, None

    def begin(self, bars=None):
        """Find a first layout; where there are several bolts, begin to compare what is paid for them.

        Takes: bars, the BarBound where strips are stacked: then nests are looked for, too.
        """
        self.search.step()
        if len(self.bolts) > 1:
            self.purchase = Purchase(self, self.till)
        elif bars:
            self.nests = Nests(self, bars)

    def searches(self):
        """List the searches that are to be worked on."""
        return [self.nests or self.search] + ([self.purchase] if self.purchase else [])

    def laid(self):
        """Lay the best layout found so far; one with nests only where less is paid for it."""
        if self.purchase:
            return self.purchase.best()
        laid = Laid(self, self.search.layout)
        is_nested = self.nests and self.nests.laid and self.nests.key < self.key_of(laid)
        return self.nests.laid if is_nested else laid

    def key_of(self, laid):
        """Tell by what layouts are compared, lower is better: (area left out, what is paid)."""
        price = 0
        for number in self.till.numbers:
            price += self.till.price_of_rows(number, length_of(laid.rows[number]))
        return laid.area, price

    def _lowest_rows(self):
        lowest = {}
        for index in self.bolts:
            heights = [
                height
                for strip in self.strips
                if may_be_cut_from(strip, self.cloths[index])
                for _, height, _ in self.cloths[index].ways(strip)
            ]
            lowest[self.cloth_numbers[index]] = min(heights)
        return lowest

    def with_bolts(self, lengths):
        """Make a component of the same strips and remnants, but of these bolts alone, each of which is used.

        Takes: lengths, {number of the bolt: what there is of it to cut, None for plenty}.
        """
        strips, cloths, priced = self.plan
        cloths, numbers = list(cloths), []
        for number in self.cloth_numbers:
            if number in lengths and lengths[number] is not None:
                cloths[number] = cloths[number].cut_to(lengths[number])
            if number in lengths or cloths[number].length is not None:
                numbers.append(number)
        areas = self.areas, self.exact_areas
        return Component(strips, cloths, self.strip_numbers, numbers, priced, self.stacking, False, areas)

    # lengths in whole parts

    def _lengths(self):
        found = [strip[name] for strip in self.strips for name in ("length", "width")]
        for cloth in self.cloths:
            found += [cloth.repeat, cloth.squaring]
            for strip in self.strips:
                found += [strip["length"] + 2 * cloth.loss, strip["width"] + 2 * cloth.loss]
        return found

    def to_parts(self, length):
        """Turn a length in mm into the whole parts that this component counts in."""
        return in_parts(length, self.parts_of_mm)

    def is_exact(self):
        """Say whether all lengths are whole parts, not only as far as the finest parts tell."""
        return self.parts_of_mm != FINEST

    def width_of(self, index):
        """Return the usable width of a cloth in whole parts."""
        return self.to_parts(self.cloths[index].width)

    def repeats_of_bolts(self):
        """List the print repeats of the bolts in whole parts."""
        return [self.to_parts(self.cloths[index].repeat) for index in self.bolts]

    def store_of(self, index):
        """Return the number of the store that a remnant is."""
        return len([cloth for cloth in self.cloths[:index] if cloth.length is not None])

    def ways(self, strip, cloth):
        """List the ways a strip may lie on a cloth, in whole parts: [(extent, height, turned)]."""
        if not may_be_cut_from(strip, cloth):
            return []
        # what fits as far as a float's last bits can tell fits in whole parts
        return [
            (self._within(extent, cloth.width), self._within(height, cloth.length), turned)
            for extent, height, turned in cloth.ways(strip)
        ]

    def _within(self, length, most):
        parts = self.to_parts(length)
        return parts if most is None else min(parts, self.to_parts(most))

    # whole costs

    def _costed(self, ways, heights, areas):
        # the row types; None where all that may be left out would cost more than the runtimes divide alike
        self.overcharge, self.stores = 0.0, []
        step, self.cost_unit = self._cost_units(heights)
        row_types = []
        for index, cloth in enumerate(self.cloths):
            row_types += self._row_types(index, cloth, ways[index], heights[index], step)
        self.left_out_cost = self._left_out_factor(row_types)
        self.areas, self.exact_areas = areas or self._areas(row_types)
        left_out = self._left_out(row_types)
        total = self.left_out_cost
        for row_type in left_out:
            total += row_type.cost * self.demand[row_type.ways[0][0]]
        return row_types + left_out if total < MOST_COST else None

    def _cost_units(self, heights):
        # the whole parts that one of cost is for where all bolts cost alike (else None), and its worth
        bought = [self.rates[index] for index in self.bolts]
        if not bought:
            return 1, 1.0
        if max(bought) > min(bought) or self.coarse:
            return None, max(bought) / COST_PARTS * 10**self.coarse
        whole = [height for index in self.bolts for height, _ in heights[index]]
        if len(bought) > 1:
            whole += [self.to_parts(self.cloths[index].squaring) for index in self.bolts]
        step = divisor_of(whole)
        return step, bought[0] * step / self.parts_of_mm

    def _cost(self, index, height, step):
        # rounded down, so that a bound holds; what would be nothing is raised, and told in `overcharge`
        if step:
            return height // step
        cost = int(height / self.parts_of_mm * self.rates[index] / self.cost_unit)
        if not cost:
            self.overcharge += self.cost_unit
        return max(1, cost)

    def _charges(self):
        # one bolt alone is paid for by all layouts that need it: nothing to choose
        if len(self.bolts) < 2 or not self.charging:
            return {}
        charges = {}
        for index in self.bolts:
            charge = int(self.cloths[index].squaring * self.rates[index] / self.cost_unit)
            if charge:
                charges[index] = charge
        return charges

    # types of row

    def _row_types(self, index, cloth, ways, heights, step):
        store, share = None, 1
        if cloth.length is not None:
            store, share = len(self.stores), divisor_of([height for height, _ in heights])
            self.stores.append(self.to_parts(cloth.length) // share)
        row_types, before = [], {False: [], True: []}
        for height, last in heights:
            for fitting in self._fitting(cloth, ways, height, last):
                row_type = RowType(
                    self.to_parts(cloth.width),
                    fitting,
                    0 if store is not None else self._cost(index, height, step),
                    store,
                    height // share if store is not None else 0,
                    origin=index,
                    family=index,
                    height=height,
                    napped=cloth.given["nap"],
                    last=last,
                )
                # a higher row must hold something more
                more = fitting if row_type.napped else (row_type.pieces, row_type.stacks)
                if more not in before[last]:
                    row_types.append(row_type)
                    before[last].append(more)
        return row_types

    def _row_heights(self, cloth, ways):
        # [(height, whether such a row can only be the last)]: on a print that is as high as its strips
        found = []
        for high in _heights(ways):
            on_repeat = self._on_repeat(cloth, high)
            if on_repeat > high:
                found.append((high, True))
            if (on_repeat, False) not in found:
                found.append((on_repeat, False))
        return in_order(found, lambda row: row[0])

    def _on_repeat(self, cloth, high):
        return self.to_parts(cloth.row_height(high / self.parts_of_mm)) if cloth.repeat else high

    def _fitting(self, cloth, ways, height, last):
        # the ways to lie in rows of a height: one beside the other, and stacked where that is asked
        stacked = [
            (size, extent, turned, height // high)
            for size, own in enumerate(ways)
            for extent, high, turned in own
            if (high if last else self._on_repeat(cloth, high)) <= height
        ]
        single = [way[:3] + (1,) for way in stacked]
        # a strip over another would not begin on the print's repeat
        if not self.stacking or cloth.repeat or stacked == single:
            return [single]
        return [single, stacked]

    def _left_out_factor(self, row_types):
        # least area before least cost
        dearest, pieces = 0, 0
        for row_type in row_types:
            dearest = max(dearest, row_type.cost)
        for strip in self.strips:
            pieces += strip["quantity"]
        charges = self._charges()
        factor = 1 + dearest * pieces
        for index in self.bolts:
            factor += charges.get(index, 0)
        return factor

    def _areas(self, row_types):
        # (area of a strip of each size, whether that is exact); where all are cut, square centimetres do
        rough = [max(1, int(strip["length"] * strip["width"] / 100)) for strip in self.strips]
        if not self._sizes_left_out(row_types):
            return rough, True
        whole = [self.to_parts(strip["length"]) * self.to_parts(strip["width"]) for strip in self.strips]
        step = divisor_of(whole)
        exact, total = [area // step for area in whole], self.left_out_cost
        for area, count in zip(exact, self.demand):
            total += area * count * self.left_out_cost
        return (exact, self.is_exact()) if total < MOST_COST else (rough, False)

    def _sizes_left_out(self, row_types):
        on_bolts = [way[0] for row_type in row_types if row_type.store is None for way in row_type.ways]
        return [size for size in range(len(self.strips)) if size not in on_bolts]

    def _left_out(self, row_types):
        # ways to leave out what no bolt takes
        return [
            RowType(1, [(size, 1, False, 1)], self.left_out_cost * self.areas[size], family=len(self.cloths))
            for size in self._sizes_left_out(row_types)
        ]

    # what a layout comes to, in mm of bolt or minor units; rows are laid ones, by number of the cloth

    def left_out_of(self, layout):
        """Count how many strips of each size a layout leaves out."""
        missing = [0] * len(self.demand)
        for run in layout:
            if run.row_type.origin is None:
                for size, count in enumerate(run.counts):
                    missing[size] += count * run.times
        return missing

    def area_of(self, counts):
        """Add up the area of so many strips of each size, as the search counts it."""
        return add_up([count * area for count, area in zip(counts, self.areas)])

    def value_of(self, rows):
        """Add up what the bolts of a layout are worth, their squaring with it."""
        value = 0.0
        for index in self.bolts:
            used = length_of(rows.get(self.cloth_numbers[index], []))
            value += self.rates[index] * self.cloths[index].washed_length(used)
        return value

    def worth_of_rows(self, cost):
        """Return what rows of such a cost or more are worth on bolts at least."""
        return max(0.0, cost * self.cost_unit - self.overcharge * add_up(self.demand))

    def bound(self, area):
        """Return what the search has proven of the rows on bolts, beside the area that is left out."""
        return self.worth_of_rows(max(0, self.search.bound - area * self.left_out_cost))

    def with_squaring(self, bound):
        """Add the squaring to a bound on the rows, where there is one bolt that needs it."""
        if len(self.bolts) == 1 and bound:
            bound += self.rates[self.bolts[0]] * self.cloths[self.bolts[0]].squaring
        return bound

    def is_proven(self, found, area):
        """Say whether the search has proven a layout of such a worth that leaves out such an area."""
        if self.coarse or self.search.cost > self.search.bound or area and not self.exact_areas:
            return False
        return not self.purchase or self.purchase.is_least_cloth(found, area)


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
