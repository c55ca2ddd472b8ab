"""The search for the least cost of rows, and its proof: a few steps at a time.

Branch and bound on the number of rows of each kind, each branch bounded by the
linear programme over fillings (`master.py`) and proven in whole numbers
(`proof.py`). Whenever it is stopped there is a valid layout and a valid bound:
the least of the bounds of the branches still open.
"""

from .fullest import fullest
from .greedy import complete
from .master import Master
from .plan import Rows, cost_of
from .proof import least_cost, weigh

WORTH_OF_ALL = 268435456  # keeps the whole numbers of the proof small on the phone
MOST_STEPS = 300
SMALL = 1e-6


class Branch:
    """A part of all layouts: bounds on numbers of rows, a cost none of it is below, where it began."""

    def __init__(self, bounds, least, basis):
        self.bounds = bounds
        self.least = least
        self.basis = basis


class Search:
    """A search that can be stopped at any step.

    Takes: plan; areas, whole numbers by which sizes are compared at first.
    Has: layout (None where nothing is found), cost, least (the bound), done.
    """

    def __init__(self, plan, areas):
        self.plan = plan
        self.areas = areas
        self.layout, self.cost = None, None
        self.least = 0
        self.done = False
        self.pool = []
        self.scale = max([kind.cost for kind in plan.kinds]) or 1
        self.known = {}
        self.open = []
        self.branch, self.master = None, None
        self.stuck = None
        self.nodes = 0
        self.ladders = []
        for number, kind in enumerate(plan.kinds):
            while len(self.ladders) <= kind.ladder:
                self.ladders.append([])
            self.ladders[kind.ladder].append(number)
        self.work = self._first

    def step(self):
        """Do a little of the work."""
        if not self.done:
            self.work()

    def _first(self):
        self._offer(complete(self.plan, [], self.areas))
        if self.layout is None:
            self.done = True
            return
        for rows in self.layout:
            self._know(rows.kind, rows.counts)
        limited = [
            ([number], kind.most, False)
            for number, kind in enumerate(self.plan.kinds)
            if kind.most is not None
        ]
        self.open = [Branch(limited, 0, [])]
        self.work = self._next

    def _offer(self, layout):
        if layout is None:
            return
        cost = cost_of(self.plan, layout)
        if self.cost is None or cost < self.cost:
            self.layout, self.cost = layout, cost

    def _know(self, kind, counts):
        key = (kind, tuple(counts))
        if key in self.known:
            return False
        if not self.master:
            self.master = Master(self.plan, self.scale, [], [], self.pool)
        self.known[key] = True
        column = self.master.column(kind, counts)
        self.pool.append(column)
        return True

    def _next(self):
        # the branch of least bound; of equals the last, which is the deepest
        best = None
        for place, branch in enumerate(self.open):
            if branch.least < self.cost and (best is None or branch.least <= self.open[best].least):
                best = place
        if best is None:
            self.least = self.cost if self.stuck is None else min(self.cost, self.stuck)
            self.done = True
            return
        self.branch = self.open.pop(best)
        self.least = min(self.branch.least, self.stuck if self.stuck is not None else self.branch.least)
        self.nodes += 1
        self.master = Master(self.plan, self.scale, self.branch.bounds, self.branch.basis, self.pool)
        self.work = self._improve

    def _improve(self):
        worth = self.master.duals()
        if not self.master.pivot(worth):
            self._price(worth)

    def _price(self, worth):
        sizes = len(self.plan.wanted)
        total = 0.0
        for size in range(sizes):
            total += max(0.0, worth[size]) * self.plan.wanted[size]
        factor = WORTH_OF_ALL / total if total > 0 else 1.0
        self.worths = [int(max(0.0, value) * factor) for value in worth[:sizes]]
        self.weights = [int(abs(value) * factor) for value in worth[self.master.fixed_rows :]]
        extra = self.master.extra_of_kinds(worth)
        self.reaches, new = [], False
        for number, kind in enumerate(self.plan.kinds):
            pieces = [(self.worths[size], reach, self.plan.wanted[size]) for size, reach in kind.pieces]
            value, placed, upper = fullest(kind.room, pieces, MOST_STEPS)
            self.reaches.append(upper)
            less = kind.cost / self.scale - extra[number] - value / factor
            if kind.store is not None:
                less -= worth[sizes + kind.store] * kind.take
            if less < -SMALL:
                counts = [0] * sizes
                for (size, _), count in zip(kind.pieces, placed):
                    counts[size] = count
                new = self._know(number, counts) or new
        if not new:
            self.work = self._bound

    def _bound(self):
        total = 0
        for value, count in zip(self.worths, self.plan.wanted):
            total += value * count
        reaches, total = weigh(self.reaches, total, self.branch.bounds, self.weights)
        least = least_cost(self.plan, reaches, total, self.cost)
        self.branch.least = max(self.branch.least, least)
        self.work = self._round if self.branch.least < self.cost else self._next

    def _round(self):
        layout = []
        self.rows = [0.0] * len(self.plan.kinds)
        whole = True
        for column, amount in zip(self.master.basis, self.master.amounts):
            if column.kind >= 0:
                self.rows[column.kind] += amount
                times = int(amount + SMALL)
                whole = whole and abs(amount - times) < SMALL
                if times:
                    layout.append(Rows(column.kind, column.counts, times))
            elif column.cost and amount > SMALL:
                whole = False
        self._offer(complete(self.plan, layout, self.worths))
        self._offer(complete(self.plan, layout, self.areas))
        self.work = self._split if self.branch.least < self.cost else self._next

    def _split(self):
        kinds, amount = self._parting()
        self.work = self._next
        if kinds is None:
            # the numbers of rows are whole: what they hold is not
            self.stuck = min(self.stuck, self.branch.least) if self.stuck is not None else self.branch.least
            return
        number = int(amount + SMALL)
        basis = [column for column in self.master.basis if column.kind >= 0]
        for bound in ((kinds, number, False), (kinds, number + 1, True)):
            self.open.append(Branch(self.branch.bounds + [bound], self.branch.least, basis))

    def _parting(self):
        # rows of one ladder from some height up whose number is broken: where a row more or less tells most
        best, amount, most = None, 0.0, 0.0
        for ladder in self.ladders:
            total = 0.0
            for place in range(len(ladder) - 1, -1, -1):
                total += self.rows[ladder[place]]
                below = self.plan.kinds[ladder[place - 1]].height if place else 0
                part = total - int(total + SMALL)
                tells = min(part, 1 - part) * (self.plan.kinds[ladder[place]].height - below)
                if min(part, 1 - part) > SMALL and tells > most:
                    best, amount, most = ladder[place:], total, tells
        return best, amount
