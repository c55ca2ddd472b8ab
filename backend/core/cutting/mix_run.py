"""The dearest layout of one cloth with its first cuts one way, step by step.

1. On a coarse grid, where the points are many: prices for the limited sizes, a
   good layout with sizes rounded up, and a bound with sizes rounded down.
2. On the points: prices, or those of the coarse grid; worths of all parts. Of many
   parts only those are kept that may be in a better layout than the best: one cloth
   is worth its area at the best piece's worth an area, less what each part falls
   short of that.
3. Where quantities are limited: rests, and the search over parts, first with room
   for few parts at each place, to have a good layout soon.

What is proven holds wherever it is stopped.
"""

from ..ordering import in_order
from .grid_pieces import MOST_POINTS, Grid, rounded_down, rounded_up
from .mix_search import Search
from .quantity_prices import QuantityPrices
from .rests import Rests, StagedRests
from .staged_worths import StagedWorths
from .worths import Worths

# steps that working out all worths once may take, for prices to be found on the points
EASY = 300000
# more than that is not begun where quantities are limited
HARD = 60000000
# points an axis of a coarse grid, and of a finer one
COARSE, FINER = 96, 256
MOST_ROUNDS = 100
FEWEST_ROUNDS = 20
STEPS_FOR_PRICES = 4000000
# parts of the worth of the whole that may be lost at first, and by how much that grows
FIRST_SHARE, GROWTH = 8192, 4
ROOMS = (1, 3, None)
STEPS_IN_A_ROOM = 3000000
LARGEST = 1073741823


class Run:
    """A run for one way of the first cuts, resumable.

    Takes: grid, the points of the cloth; cloth, (units across, units along); sizes,
    [(units across, units along, worth, size, turned)]; limits, the most of each size,
    None for any; stages, 0 for any number; worth, that of a layout known already.
    `worth` and `made` are the best layout, None while none is better than the one
    known; no layout is worth more than `bound`, nor than `area_bound`, known at once.
    """

    def __init__(self, grid, cloth, sizes, limits, stages, worth):
        self.cloth, self.sizes, self.limits, self.stages = cloth, sizes, limits, stages
        self.worth, self.made = worth, None
        self.limited = len([most for most in limits if most is not None]) > 0
        self.phase = None
        self.prices, self.bounded = None, False
        self.grid = grid
        self.area_bound = self.bound = self._area_bound() if sizes else 0
        self.scale = 1
        while self.limited and self.scale < 1024 and self.bound * self.scale * 4 <= LARGEST:
            self.scale *= 2
        if self.bound > self.worth:
            self._take_one_size()
            self._begin()

    def done(self):
        """Say whether nothing is left to do: it is proven, or it never will be."""
        return self.phase is None

    def advance(self):
        """Go on by a little; returns the steps that took."""
        steps = self.phase()
        if self.bound <= self.worth:
            self.bound = self.worth
            self.phase = None
        return max(steps, 1)

    def _take_one_size(self):
        # a layout at once: of the size that is worth most alone, on points of its own
        best, dearest = 0, None
        for one in self.sizes:
            beside, behind, most = self.cloth[0] // one[0], self.cloth[1] // one[1], self.limits[one[3]]
            worth = one[2] * (beside * behind if most is None else min(beside * behind, most))
            if worth > best and beside < MOST_POINTS and behind < MOST_POINTS:
                best, dearest = worth, one
        if dearest is not None:
            alone = Grid(self.cloth, [dearest], self.limits)
            self._better(*alone.one_size(self.limits), alone)

    def is_easy(self):
        """Say whether prices can be found on the points themselves."""
        return self.phase is None or self.grid.fine and self.grid.effort() <= EASY

    def _begin(self):
        if self.grid.fine and self.grid.effort() <= EASY:
            self._to_prices(self.grid)
        else:
            self._to_prices(self._coarse(rounded_up, COARSE))

    def _coarse(self, rounded, points):
        return rounded(self.cloth, self.sizes, self.limits, points)

    def _area_bound(self):
        # the cloth filled with what is worth most for its area, as far as there is of it
        left, bound, filled = float(self.cloth[0]) * self.cloth[1], 0.0, {}
        for across, along, worth, size, _ in in_order(self.sizes, _less_worth_an_area):
            area, most = float(across) * along, self.limits[size]
            if size not in filled:
                filled[size] = True
                share = left if most is None else min(left, most * area)
                bound += worth * share / area
                left -= share
        return int(bound * (1 + 1e-12) + 1e-6)

    def _better(self, worth, made, grid):
        if worth > self.worth:
            self.worth, self.made = worth, (grid, made)

    def _worths(self, grid, worths, keep=None):
        pieces = [(across, along, worth) for (across, along, _, _), worth in zip(grid.pieces, worths)]
        if self.stages:
            return StagedWorths(grid.across, grid.along, pieces, self.stages, keep)
        return Worths(grid.across, grid.along, pieces, keep)

    # prices

    def _to_prices(self, grid):
        if grid is None:
            self._to_worths(self._finer())
            return
        rounds = min(MOST_ROUNDS, max(FEWEST_ROUNDS, STEPS_FOR_PRICES // grid.effort()))
        self.at = grid
        self.finding = QuantityPrices(
            lambda worths: self._worths(grid, worths),
            grid.pieces,
            self.limits,
            self.scale,
            rounds if self.limited else 1,
            self.prices,
        )
        self.phase = self._find_prices

    def _find_prices(self):
        steps = self.finding.advance()
        if self.at.gives_layouts:
            self._better(self.finding.worth, self.finding.best, self.at)
        if self.at.gives_bounds and self.finding.bound is not None:
            self.bound = min(self.bound, self.finding.bound)
        if self.finding.done:
            self.prices = self.finding.prices
            if not self.at.gives_bounds and not self.limited:
                self._to_prices(self._coarse(rounded_down, COARSE))
            else:
                self._to_worths(
                    self.at if self.at is self.grid or not self.at.gives_bounds else self._finer()
                )
        return steps

    def _finer(self):
        # where quantities are limited, one more grid for good layouts
        return self._coarse(rounded_up, FINER) if self.limited else self.grid

    # worths of all parts under the prices

    def _to_worths(self, grid):
        if not grid.fine or self.limited and grid.effort() > HARD:
            self.phase = None
            return
        self.at = grid
        self.reduced = [max(0, worth * self.scale - self.prices[size]) for _, _, worth, size in grid.pieces]
        self.base = 0
        for size, most in enumerate(self.limits):
            self.base += self.prices[size] * (most or 0)
        self.whole = grid.densest(self.reduced)
        self.loss = self._loss_allowed()
        if not self.limited:
            first = self.whole / FIRST_SHARE
            self.loss = self.loss if self.loss <= first * GROWTH else first
        self._work_out_worths()

    def _loss_allowed(self):
        # what a better layout than the best may fall short of the whole
        return self.whole + self.base - (self.worth + 1) * self.scale

    def _work_out_worths(self):
        keep = None
        if self.at.effort() > EASY:
            keep = self.at.keeper(self.reduced, self.loss)
        self.worths = self._worths(self.at, self.reduced, keep)
        self.phase = self._find_worths

    def _find_worths(self):
        steps = self.worths.advance()
        if not self.worths.done:
            return steps
        if self.limited:
            # parts that were not kept are in no better layout
            if self.at.gives_bounds:
                self.bound = min(self.bound, max(self.worth, (self.worths.best() + self.base) // self.scale))
            self.rests = StagedRests(self.worths) if self.stages else Rests(self.worths)
            self.phase = self._find_rests
            return steps
        self._better(self.worths.best(), self.at.named(self.worths.trace(), self.reduced), self.at)
        if self.at.effort() <= EASY or self.loss >= self._loss_allowed():
            self.bound = self.worth
        else:
            self.loss = min(self.loss * GROWTH, self._loss_allowed())
            self._work_out_worths()
        return steps

    def _find_rests(self):
        steps = self.rests.advance()
        if self.rests.done:
            self.rooms = ROOMS if self.at.gives_bounds else ROOMS[:-1]
            self._to_search(0)
        return steps

    # the search over parts

    def _to_search(self, turn):
        if turn == len(self.rooms):
            self._after_search()
            return
        self.turn, self.taken = turn, 0
        self.search = Search(
            self.at.pieces, self.limits, self.prices, self.scale, self.rests, self.worth, self.rooms[turn]
        )
        self.phase = self._search

    def _after_search(self):
        if self.at.gives_bounds:
            self.phase = None
        elif self.bounded:
            self._to_worths(self.grid)
        else:
            self.bounded = True
            self._to_prices(self._coarse(rounded_down, COARSE))

    def _search(self):
        steps = self.search.advance()
        self.taken += steps
        if self.search.best is not None:
            self._better(self.search.worth, self.search.best.made, self.at)
        proves = self.rooms[self.turn] is None
        if proves:
            self.bound = min(self.bound, self.search.bound())
        if steps == 0 or not proves and self.taken > STEPS_IN_A_ROOM:
            self._to_search(self.turn + 1)
        return steps


def _less_worth_an_area(one):
    return -one[2] / (float(one[0]) * one[1])
