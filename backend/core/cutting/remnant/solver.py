"""The dearest layout of one cloth with its first cuts one way, step by step.

What is done, and on which grid, is the route that it takes: see `FEW_POINTS`,
`UNLIMITED` and `LIMITED`. Each phase of it has a grid's

multipliers: Lagrangian multipliers of the limited sizes, 0 for the others, with a
    layout where the grid gives layouts, and a bound where it gives bounds.
values: of all parts under those, by dynamic programming. Of many parts only those
    are kept that may be in a better layout than the best: one cloth is worth its area
    at the best piece's value an area, less what each part falls short of that. Where
    no quantity is limited this is the answer.
outer bounds: what the rest beside each part may be worth.
search: best first over parts, at first few at each place, to have a good layout
    soon; on the points at last over all, which is the proof.

What is proven holds wherever it is stopped.
"""

from ...numbers.ordering import in_order
from .best_first import BestFirst
from .dynamic_programme import DynamicProgramme
from .grid import MOST_POINTS, Grid, rounded_down, rounded_up
from .lagrangian import Lagrangian
from .outer_bound import OuterBounds, StagedOuterBounds
from .staged_programme import StagedProgramme

# the grids: the points of the cloth; coarse ones, which give bounds alone or layouts alone
POINTS, DOWN, UP, FINER_UP = "points", "sizes rounded down", "sizes rounded up", "the same, finer"
FEW_POINTS = (("multipliers", POINTS), ("values", POINTS), ("outer bounds", POINTS), ("search", POINTS))
UNLIMITED = (("multipliers", UP), ("multipliers", DOWN), ("values", POINTS))
LIMITED = (
    ("multipliers", UP), ("values", UP), ("outer bounds", UP), ("search", UP),
    ("multipliers", DOWN),
    ("values", FINER_UP), ("outer bounds", FINER_UP), ("search", FINER_UP),
    ("values", POINTS), ("outer bounds", POINTS), ("search", POINTS),
)  # fmt: skip

# steps that working out all values once may take, for multipliers to be found on the points
EASY = 300000
# more than that is not begun where quantities are limited
HARD = 60000000
# points an axis of a coarse grid, and of a finer one
COARSE, FINER = 96, 256
MOST_ROUNDS = 100
FEWEST_ROUNDS = 20
STEPS_FOR_MULTIPLIERS = 4000000
# parts of the value of the whole that may be lost at first, and by how much that grows
FIRST_SHARE, GROWTH = 8192, 4
# parts at one place that the search looks at, one time after the other; None for all, which proves
BEAMS = (1, 3, None)
STEPS_IN_A_BEAM = 3000000
LARGEST = 1073741823


class Solver:
    """A solver for one way of the first cuts, resumable.

    Takes: grid, the points of the cloth; cloth, (units across, units along); sizes,
    [(units across, units along, value, size, turned)]; limits, the most of each size,
    None for any; stages, 0 for any number; value, that of a layout known already.
    `value` and `tree` are the best layout, (grid, how it is cut), None while none is better
    than the one known; no layout is worth more than `bound`, nor than `area_bound`, known at once.
    """

    def __init__(self, grid, cloth, sizes, limits, stages, value):
        # phase: (how it begins on a grid, one step of it)
        self.phases = {
            "multipliers": (self._begin_multipliers, self._find_multipliers),
            "values": (self._begin_values, self._find_values),
            "outer bounds": (self._begin_outer_bounds, self._find_outer_bounds),
            "search": (self._begin_search, self._search),
        }
        self.cloth, self.sizes, self.limits, self.stages = cloth, sizes, limits, stages
        self.value, self.tree = value, None
        self.limited = len([most for most in limits if most is not None]) > 0
        self.work, self.route = None, []
        self.multipliers = None
        self.points, self.grid, self.grid_name = grid, grid, POINTS
        self.area_bound = self.bound = self._area_bound() if sizes else 0
        self.scale = 1
        while self.limited and self.scale < 1024 and self.bound * self.scale * 4 <= LARGEST:
            self.scale *= 2
        if self.bound > self.value:
            self._take_one_size()
            many = LIMITED if self.limited else UNLIMITED
            self.route = list(FEW_POINTS if self._has_few_points() else many)
            self._next_phase()

    def done(self):
        """Say whether nothing is left to do: it is proven, or it never will be."""
        return self.work is None

    def advance(self):
        """Go on by a little; returns the steps that took."""
        steps = self.work()
        if self.bound <= self.value:
            self.bound = self.value
            self.work = None
        return max(steps, 1)

    def is_easy(self):
        """Say whether multipliers can be found on the points themselves."""
        return self.work is None or self._has_few_points()

    def _has_few_points(self):
        return self.points.fine and self.points.effort() <= EASY

    def _next_phase(self):
        self.work = None
        while self.route:
            phase, name = self.route.pop(0)
            grid = self._grid_named(name)
            if grid is None:
                continue
            if phase == "values" and (not grid.fine or self.limited and grid.effort() > HARD):
                return
            self.grid, self.grid_name = grid, name
            begin, self.work = self.phases[phase]
            begin()
            return

    def _grid_named(self, name):
        # None where a size would be rounded down to nothing
        if name == POINTS:
            return self.points
        if name == self.grid_name:
            return self.grid
        if name == DOWN:
            return rounded_down(self.cloth, self.sizes, self.limits, COARSE)
        return rounded_up(self.cloth, self.sizes, self.limits, COARSE if name == UP else FINER)

    # known at once

    def _take_one_size(self):
        # a layout at once: of the size that is worth most alone, on points of its own
        best, dearest = 0, None
        for one in self.sizes:
            beside, behind, most = self.cloth[0] // one[0], self.cloth[1] // one[1], self.limits[one[3]]
            value = one[2] * (beside * behind if most is None else min(beside * behind, most))
            if value > best and beside < MOST_POINTS and behind < MOST_POINTS:
                best, dearest = value, one
        if dearest is not None:
            alone = Grid(self.cloth, [dearest], self.limits)
            self._better(*alone.one_size(self.limits), alone)

    def _area_bound(self):
        # the cloth filled with what is worth most for its area, as far as there is of it
        left, bound, filled = float(self.cloth[0]) * self.cloth[1], 0.0, {}
        for across, along, value, size, _ in in_order(self.sizes, _less_value_an_area):
            area, most = float(across) * along, self.limits[size]
            if size not in filled:
                filled[size] = True
                share = left if most is None else min(left, most * area)
                bound += value * share / area
                left -= share
        return int(bound * (1 + 1e-12) + 1e-6)

    def _better(self, value, tree, grid):
        if value > self.value:
            self.value, self.tree = value, (grid, tree)

    # multipliers

    def _begin_multipliers(self):
        rounds = min(MOST_ROUNDS, max(FEWEST_ROUNDS, STEPS_FOR_MULTIPLIERS // self.grid.effort()))
        self.lagrangian = Lagrangian(
            self._programme,
            self.grid.pieces,
            self.limits,
            self.scale,
            rounds if self.limited else 1,
            self.multipliers,
        )

    def _programme(self, values, keep=None):
        grid = self.grid
        pieces = [(across, along, value) for (across, along, _, _), value in zip(grid.pieces, values)]
        if self.stages:
            return StagedProgramme(grid.across, grid.along, pieces, self.stages, keep)
        return DynamicProgramme(grid.across, grid.along, pieces, keep)

    def _find_multipliers(self):
        steps, lagrangian = self.lagrangian.advance(), self.lagrangian
        if self.grid.gives_layouts:
            self._better(lagrangian.value, lagrangian.best, self.grid)
        if self.grid.gives_bounds and lagrangian.bound is not None:
            self.bound = min(self.bound, lagrangian.bound)
        if lagrangian.done:
            self.multipliers = lagrangian.multipliers
            self._next_phase()
        return steps

    # values of all parts under the multipliers

    def _begin_values(self):
        pieces, multipliers = self.grid.pieces, self.multipliers
        self.reduced = [max(0, value * self.scale - multipliers[size]) for _, _, value, size in pieces]
        self.base = 0
        for size, most in enumerate(self.limits):
            self.base += multipliers[size] * (most or 0)
        self.whole = self.grid.densest(self.reduced)
        self.loss = self._loss_allowed()
        if not self.limited:
            first = self.whole / FIRST_SHARE
            self.loss = self.loss if self.loss <= first * GROWTH else first
        self._begin_programme()

    def _loss_allowed(self):
        # what a better layout than the best may fall short of the whole
        return self.whole + self.base - (self.value + 1) * self.scale

    def _begin_programme(self):
        keep = None
        if self.grid.effort() > EASY:
            keep = self.grid.keeper(self.reduced, self.loss)
        self.programme = self._programme(self.reduced, keep)

    def _find_values(self):
        steps, programme = self.programme.advance(), self.programme
        if not programme.done:
            return steps
        if self.limited:
            # parts that were not kept are in no better layout
            if self.grid.gives_bounds:
                self.bound = min(self.bound, max(self.value, (programme.best() + self.base) // self.scale))
            self._next_phase()
            return steps
        self._better(programme.best(), self.grid.named(programme.trace(), self.reduced), self.grid)
        if self.grid.effort() <= EASY or self.loss >= self._loss_allowed():
            self.bound = self.value
        else:
            self.loss = min(self.loss * GROWTH, self._loss_allowed())
            self._begin_programme()
        return steps

    # outer bounds

    def _begin_outer_bounds(self):
        # no part is worth more than its share of the whole: below what two of them and one round them are
        never = -8 * (int(self.whole) + 1) - self.base
        bounds = StagedOuterBounds if self.stages else OuterBounds
        self.outer = bounds(self.programme, never)

    def _find_outer_bounds(self):
        steps = self.outer.advance()
        if self.outer.done:
            self._next_phase()
        return steps

    # the search over parts

    def _begin_search(self):
        self.beams = list(BEAMS if self.grid.gives_bounds else BEAMS[:-1])
        self._next_beam()

    def _next_beam(self):
        if not self.beams:
            self._next_phase()
            return
        self.beam, self.taken = self.beams.pop(0), 0
        self.search = BestFirst(
            self.grid.pieces, self.limits, self.multipliers, self.scale, self.outer, self.value, self.beam
        )

    def _search(self):
        steps = self.search.advance()
        self.taken += steps
        if self.search.best is not None:
            self._better(self.search.value, self.search.best.tree, self.grid)
        proves = self.beam is None
        if proves:
            self.bound = min(self.bound, self.search.bound())
        if steps == 0 or not proves and self.taken > STEPS_IN_A_BEAM:
            self._next_beam()
        return steps


def _less_value_an_area(one):
    return -one[2] / (float(one[0]) * one[1])
