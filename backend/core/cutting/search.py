"""The search for the least cost of rows, and its proof: a few steps at a time.

Branch and bound on how many rows there are from some height up, each branch
bounded by the linear programme over fillings (`master.py`) and proven in whole
numbers (`proof.py`). Whenever it is stopped there is a valid layout and a valid
bound: the least of the bounds of the branches still open.
"""

from .fullest import fullest
from .greedy import complete
from .lying import agrees, majority, most_mixed, sides_of
from .master import Master, filling
from .plan import Rows, cost_of, lies_alike
from .proof import least_cost, weigh
from .tidying import tidy

WORTH_OF_ALL = 268435456  # keeps the whole numbers of the proof small on the phone
MOST_STEPS = 300
SMALL = 1e-6
MOST_CHARGED = 4  # ladders that are paid for once, of which every choice is tried


class Branch:
    """A part of all layouts.

    Takes: bounds, [(kinds, number, at_least)]; lying and closed as in Plan.within;
    charge, what is paid once; least, a cost none of it is below; basis, where
    the linear programme begins.
    """

    def __init__(self, bounds, lying, closed, charge, least, basis):
        self.bounds = bounds
        self.lying = lying
        self.closed = closed
        self.charge = charge
        self.least = least
        self.basis = basis

    def narrowed(self, bounds, lying, basis):
        """Make a part of this branch."""
        return Branch(self.bounds + bounds, lying, self.closed, self.charge, self.least, basis)


class Search:
    """A search that can be stopped at any step.

    Takes: plan; areas, whole numbers by which sizes are compared at first.
    Has: layout (None where nothing is found), cost, least (the bound), done,
    effort, a measure of the work so far that is the same on every machine.
    """

    def __init__(self, plan, areas):
        self.plan = plan
        self.areas = areas
        self.layout, self.cost = None, None
        self.least = 0
        self.done = False
        self.effort = 0
        self.pool = []
        self.scale = max([kind.cost for kind in plan.kinds]) or 1
        self.known = {}
        self.undecided = plan.undecided()
        self.open = []
        self.branch, self.master, self.lying_plan = None, None, plan
        self.left = None
        self.work = self._first

    def step(self):
        """Do a little of the work."""
        if not self.done:
            self.effort += 1
            self.work()

    def _first(self):
        for turned in (False, True):
            lying = {pair: turned for pair in self.undecided}
            self._offer(complete(self.plan.within(lying, []), [], self.areas))
            if not self.undecided:
                break
        if self.layout is None:
            self.done = True
            return
        for rows in self.layout:
            self._know(rows.lying, rows.kind, rows.counts)
        limited = [
            ([number], kind.most, False)
            for number, kind in enumerate(self.plan.kinds)
            if kind.most is not None
        ]
        for closed, charge in self._charges():
            self.open.append(Branch(limited, {}, closed, charge, 0, []))
        self.work = self._next

    def _charges(self):
        # the choices of what is paid for once: (ladders closed, charge)
        charged = [ladder for ladder in range(len(self.plan.ladders)) if ladder in self.plan.charges]
        if len(charged) < 2:
            return [([], self.plan.charges[ladder]) for ladder in charged] or [([], 0)]
        if len(charged) > MOST_CHARGED:
            return [([], min([self.plan.charges[ladder] for ladder in charged]))]
        choices = [([], 0)]
        for ladder in charged:
            paid = [(closed, charge + self.plan.charges[ladder]) for closed, charge in choices]
            choices = paid + [(closed + [ladder], charge) for closed, charge in choices]
        return [choice for choice in choices if len(choice[0]) < len(charged)]

    def _offer(self, layout):
        if layout is None or not lies_alike(layout):
            return
        layout = tidy(self.plan, layout)
        cost = cost_of(self.plan, layout)
        if self.cost is None or cost < self.cost:
            self.layout, self.cost = layout, cost

    def _know(self, kind, number, counts):
        key = (number, tuple(counts))
        if kind.napped:
            key += tuple([kind.turned(size) for size in range(len(counts))])
        if key in self.known:
            return False
        self.known[key] = True
        column = filling(self.lying_plan, number, counts, self.scale)
        self.pool.append(column)
        if self.master and self.master.pool is not self.pool:
            self.master.pool.append(column)
        return True

    def _next(self):
        # the branch of least bound; of equals the last, which is the deepest
        best = None
        for place, branch in enumerate(self.open):
            if branch.least < self.cost and (best is None or branch.least <= self.open[best].least):
                best = place
        if best is None:
            self.least = self._bounded(self.cost)
            self.done = True
            return
        self.branch = self.open.pop(best)
        self.least = self._bounded(self.branch.least)
        self.lying_plan = self.plan.within(self.branch.lying, self.branch.closed)
        pool = self.pool
        if self.branch.lying or self.branch.closed:
            pool = [column for column in pool if self._allowed(column)]
        basis = [column for column in self.branch.basis if self._allowed(column)]
        self.master = Master(self.lying_plan, self.scale, self.branch.bounds, basis, pool)
        self.work = self._improve

    def _bounded(self, least):
        # what is left undecided bounds all
        return least if self.left is None else min(least, self.left)

    def _allowed(self, column):
        return column.lying.ladder not in self.branch.closed and agrees(column, self.branch.lying)

    def _improve(self):
        self.effort += len(self.pool) // 16 + len(self.master.right) // 4
        worth = self.master.duals()
        if not self.master.pivot(worth):
            self._begin_pricing(worth)

    def _begin_pricing(self, worth):
        total = 0.0
        for size, count in enumerate(self.plan.wanted):
            total += max(0.0, worth[size]) * count
        self.worth = worth
        self.factor = WORTH_OF_ALL / total if total > 0 else 1.0
        sizes = len(self.plan.wanted)
        self.worths = [int(max(0.0, value) * self.factor) for value in worth[:sizes]]
        self.weights = [int(abs(value) * self.factor) for value in worth[self.master.fixed_rows :]]
        self.extra = self.master.extra_of_kinds(worth)
        self.reaches, self.ladder, self.new = [0] * len(self.plan.kinds), 0, False
        self.work = self._price

    def _price(self):
        # one ladder at a time: the fullest filling of each kind by what pieces are worth
        sizes = len(self.plan.wanted)
        for number in self.plan.ladders[self.ladder]:
            kind = self.lying_plan.kinds[number]
            pieces = [(self.worths[size], reach, self.plan.wanted[size]) for size, reach, _ in kind.pieces]
            value, placed, upper, steps = fullest(kind.room, pieces, MOST_STEPS)
            self.effort += 1 + steps // 16
            self.reaches[number] = upper
            less = kind.cost / self.scale - self.extra[number] - value / self.factor
            if kind.store is not None:
                less -= self.worth[sizes + kind.store] * kind.take
            if less < -SMALL and value:
                counts = [0] * sizes
                for (size, _, _), count in zip(kind.pieces, placed):
                    counts[size] = count
                self.new = self._know(kind, number, counts) or self.new
        self.ladder += 1
        if self.ladder == len(self.plan.ladders):
            self.work = self._improve if self.new else self._bound

    def _bound(self):
        total = 0
        for value, count in zip(self.worths, self.plan.wanted):
            total += value * count
        reaches, total = weigh(self.reaches, total, self.branch.bounds, self.weights)
        upto = max(1, self.cost - self.branch.charge)
        least = least_cost(self.lying_plan, reaches, total, upto)
        if least:
            self.branch.least = max(self.branch.least, least + self.branch.charge)
        self.effort += 10
        self.work = self._round if self.branch.least < self.cost else self._next

    def _round(self):
        layout, self.rows = [], [0.0] * len(self.plan.kinds)
        for column, amount in zip(self.master.basis, self.master.amounts):
            if column.kind >= 0 and amount > SMALL:
                self.rows[column.kind] += amount
        self.sides = sides_of(self.master.basis, self.master.amounts)
        lying = majority(self.undecided, self.sides, self.branch.lying)
        plan = self.plan.within(lying, self.branch.closed)
        for column, amount in zip(self.master.basis, self.master.amounts):
            times = int(amount + SMALL)
            if column.kind >= 0 and times and agrees(column, lying):
                layout.append(Rows(column.kind, column.lying, column.counts, times))
        self._offer(complete(plan, layout, self.worths))
        self._offer(complete(plan, layout, self.areas))
        self.effort += 20
        self.work = self._split if self.branch.least < self.cost else self._next

    def _split(self):
        self.work = self._next
        basis = [column for column in self.master.basis if column.kind >= 0]
        pair = most_mixed(self.undecided, self.sides)
        if pair is not None:
            for turned in (False, True):
                lying = dict(self.branch.lying)
                lying[pair] = turned
                self.open.append(self.branch.narrowed([], lying, basis))
            return
        kinds, amount = self._broken()
        if kinds is None:
            # the numbers of rows are whole: what they hold is not
            self.left = self._bounded(self.branch.least)
            return
        number = int(amount + SMALL)
        for bound in ((kinds, number, False), (kinds, number + 1, True)):
            self.open.append(self.branch.narrowed([bound], self.branch.lying, basis))

    def _broken(self):
        # rows of one ladder from some height up whose number is broken: where a row more or less tells most
        best, amount, most = None, 0.0, 0.0
        for ladder in self.plan.ladders:
            total = 0.0
            for place in range(len(ladder) - 1, -1, -1):
                total += self.rows[ladder[place]]
                below = self.plan.kinds[ladder[place - 1]].height if place else 0
                part = total - int(total + SMALL)
                tells = min(part, 1 - part) * (self.plan.kinds[ladder[place]].height - below)
                if min(part, 1 - part) > SMALL and tells > most:
                    best, amount, most = ladder[place:], total, tells
        return best, amount
