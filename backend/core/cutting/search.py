"""The search for the least cost of rows, and its proof: a few steps at a time.

Branch and bound on how many rows there are from some height up, each branch
bounded by the linear programme over fillings (`master.py`) and proven in whole
numbers (`proof.py`). Whenever it is stopped there is a valid layout and a valid
bound: the least of the bounds of the branches still open.
"""

from .bounds import Bound, on_rows, weigh
from .branches import Branch, choices_of_charges
from .columns import Basis
from .diving import Dive
from .gains import Gains, Rounding
from .generating import Fillings, Programme
from .greedy import complete
from .lying import agrees, lying_of, majority, most_mixed, sides_of
from .master import OLDEST
from .mending import Mending
from .pacing import Pace, is_wide
from .parting import WHOLE, partings_of, rows_of
from .plan import Rows, lies_alike, rank
from .proof import Proof
from .sharpening import MOST_ROUNDS, sharper
from .tidying import tidy

# how often a layout is mended after a dive
FIRST_MENDINGS = 20
LAST_MENDINGS = 12
MENDINGS = 6
MENDINGS_WHERE_WIDE = 8
DEEPER = 0.2  # of the way from the bound to what is found, that a branch is still gone on from at once
NEARLY = 0.99999
UP_FIRST = 0.4  # the part of a broken number above which it is rounded up first


class Search:
    """A search that can be stopped at any step.

    Takes: plan.
    Has: layout (None where nothing is found), cost, least (the bound), done,
    effort, a measure of the work so far that is the same on every machine.
    """

    def __init__(self, plan):
        self.plan = plan
        self.areas = plan.areas
        self.layout, self.cost, self.rank = None, None, None
        self.least = 0
        self.done = False
        self.effort = 0
        self.fillings = Fillings(max([kind.cost for kind in plan.kinds]) or 1)
        self.undecided = plan.undecided()
        self.open = []
        self.branch, self.programme, self.inner = None, None, plan
        self.diver, self.mending = None, None
        self.left = None
        self.limited = []
        self.nodes = 0
        self.pace = Pace()
        self.sharp, self.rounds = [], 0
        self.gains, self.partings = Gains(), []
        self.work = self._first

    def step(self):
        """Do a little of the work."""
        if not self.done:
            self.effort += 1
            self.work()

    def _first(self):
        for turned in (False, True):
            lying = {pair: turned for pair in self.undecided}
            self._complete(self.plan.within(lying, []), [], self.areas)
            if not self.undecided:
                break
        if self.layout is None:
            self.done = True
            return
        for rows in self.layout:
            if rows.lying.store is None:
                self.fillings.add([Rows(rows.kind, rows.lying, rows.counts, 1)], len(self.plan.wanted))
        self.limited = [
            on_rows(self.plan, [number], kind.most, False)
            for number, kind in enumerate(self.plan.kinds)
            if kind.most is not None
        ]
        for closed, charge in choices_of_charges(self.plan):
            self.open.append(Branch(self.limited, {}, closed, charge, 0, Basis([])))
        self.work = self._next

    def _complete(self, plan, layout, worths):
        layout, effort = complete(plan, layout, worths)
        self.effort += effort
        self._offer(layout)

    def _offer(self, layout):
        if layout is None or not lies_alike(layout):
            return
        self._take(tidy(self.plan, layout))

    def _take(self, layout):
        new = rank(self.plan, layout)
        if self.rank is None or new < self.rank:
            self.layout, self.rank, self.cost = layout, new, new[0]

    def _next(self):
        # the branch of least bound, or one just made of it that is not much worse, to come to whole rows
        best = None
        for place, branch in enumerate(self.open):
            if branch.least < self.cost and (best is None or branch.least <= self.open[best].least):
                best = place
        if best is None:
            self.least = self._bounded(self.cost)
            self._begin_mending(LAST_MENDINGS)
            self.work = self._finish
            return
        least = self.open[best].least
        if self.open[-1].least <= least + (self.cost - least) * DEEPER:
            best = len(self.open) - 1
        self.branch = self.open.pop(best)
        self.least = self._bounded(least)
        self.inner = self.plan.within(self.branch.lying, self.branch.closed)
        self._programme(self.branch.basis)

    def _programme(self, basis):
        bounds = self.sharp + self.branch.bounds
        self.programme = Programme(self.inner, self.fillings, bounds, basis, self._allowed)
        self.work = self._solve

    def _bounded(self, least):
        # what is left undecided bounds all
        return least if self.left is None else min(least, self.left)

    def _allowed(self, column):
        return column.rows[0].lying.ladder not in self.branch.closed and agrees(column, self.branch.lying)

    def _solve(self):
        before = self.programme.effort
        if self.programme.step():
            self.work = self._bound
        self.effort += self.programme.effort - before

    def _bound(self):
        programme = self.programme
        if self.branch.rounding:
            self.gains.learn(self.branch.rounding, min(programme.cost(), self.cost - self.branch.charge))
            self.branch.rounding = None
        proof = self._prove()
        if self.branch.least < self.cost and programme.cost() + self.branch.charge > self.cost * NEARLY - 1:
            # the programme says that nothing better is here: it is a matter of rounding
            programme.finer()
            proof = self._prove()
        self.found = programme.found()
        self.rows = rows_of(self.plan, self.found)
        if self.branch.least >= self.cost:
            self.work = self._next
        elif not self._may_sharpen() or not self._sharpen(proof):
            self.work = self._round

    def _prove(self):
        programme, total = self.programme, 0
        before = programme.effort
        for value, count in zip(programme.worths, self.plan.wanted):
            total += value * count
        reaches, total = weigh(programme.reaches, total, programme.master.bounds, programme.factors)
        proof = Proof(self.inner, reaches, total)
        least = proof.least_cost(max(1, self.cost - self.branch.charge))
        if least:
            self.branch.least = max(self.branch.least, least + self.branch.charge)
        self.effort += proof.effort + programme.effort - before
        return proof

    def _may_sharpen(self):
        # only what holds for the whole plan is kept for all branches
        return self.inner is self.plan and self.rounds < MOST_ROUNDS and self.branch.bounds == self.limited

    def _sharpen(self, proof):
        # bounds that whole rows imply, where the parts of rows found break them
        self.rounds += 1
        new = sharper(self.plan, proof.reaches, proof.total, self.rows)
        self.effort += 20
        # those that hold nothing are dropped
        held = zip(self.sharp, self.programme.factors)
        self.sharp = [bound for bound, factor in held if factor or not new] + new
        if new:
            self._programme(self.programme.ended(self.cost - self.branch.charge))
        return bool(new)

    def _round(self):
        self.sides = sides_of(self.found)
        lying = majority(self.undecided, self.sides, self.branch.lying)
        plan = self.plan.within(lying, self.branch.closed)
        layout = [
            Rows(rows.kind, rows.lying, rows.counts, rows.times * int(amount + WHOLE))
            for column, amount in self.found
            if amount >= 1 - WHOLE and agrees(column, lying)
            for rows in column.rows
        ]
        self.partings = partings_of(self.plan, self.found)
        trying = self.pace.is_due(self.nodes) or not self.partings
        if trying:
            self.rank_before = self.rank
            self._complete(plan, layout, self.programme.worths)
            self._complete(plan, layout, self.areas)
        self.nodes += 1
        self.work = self._split if self.branch.least < self.cost else self._next
        if self.work == self._split and trying:
            closed = self.branch.closed
            self.diver = Dive(
                plan,
                self.fillings,
                self.found,
                self.areas,
                lambda column: column.rows[0].lying.ladder not in closed and agrees(column, lying),
            )
            self.work = self._dive

    def _dive(self):
        before = self.diver.effort
        self.diver.step(self.cost)
        for layout in self.diver.layouts:
            self._offer(layout)
        self.diver.layouts = []
        self.effort += self.diver.effort - before
        if self.diver.done:
            again = MENDINGS_WHERE_WIDE if is_wide(self.cost, self.least) else MENDINGS
            self._begin_mending(again if self.mending else FIRST_MENDINGS)

    def _begin_mending(self, count):
        if self.mending is None:
            self.mending = Mending(self.plan, self.layout)
        elif self.rank < self.mending.rank:
            self.mending.take_over(self.layout)
        self.mendings = count
        self.work = self._mend

    def _mend(self):
        self._mend_once()
        if not self.mendings or self.branch.least >= self.cost:
            self.pace.tried(self.nodes, self.rank < self.rank_before or is_wide(self.cost, self.least))
            self.work = self._split if self.branch.least < self.cost else self._next

    def _mend_once(self):
        mending, worths = self.mending, self.areas
        if self.mendings % 2 and self.programme and self.programme.worths:
            worths = self.programme.worths
        lying = majority(self.undecided, {}, lying_of(mending.layout))
        least = self.least - (self.branch.charge if self.branch else 0)
        self.effort += mending.step(self.plan.within(lying, []), worths, least)
        self._take(mending.layout)
        self.mendings -= 1

    def _finish(self):
        # the cost is settled: of equal ones what uses up first what it should, with fewest settings
        self._mend_once()
        self.least = self._bounded(self.cost)
        self.done = not self.mendings

    def _split(self):
        self.work = self._next
        basis = self.programme.ended(self.cost - self.branch.charge)
        pair = most_mixed(self.undecided, self.sides)
        if pair is not None:
            for turned in (False, True):
                lying = dict(self.branch.lying)
                lying[pair] = turned
                self.open.append(self.branch.narrowed([], lying, basis))
            return
        self.ended = basis
        self.unsure = self.gains.unsure(self.partings) if basis.ended.age < OLDEST else []
        self.work = self._look_ahead

    def _look_ahead(self):
        if not self.unsure:
            self._part()
            return
        parting, up = self.unsure.pop()
        new = Bound(parting.weights, parting.number + up, up, parting.size)
        bounds = self.sharp + self.branch.narrowed([new], {}, None).bounds
        cost, effort = self.programme.outlook(bounds, self.ended)
        self.effort += effort
        rounding = Rounding(parting, up, self.programme.cost())
        self.gains.learn(rounding, min(cost, self.cost - self.branch.charge))

    def _part(self):
        self.work, basis = self._next, self.ended
        parting = self.gains.best(self.partings)
        if parting is None:
            # whole rows of whole pieces: what was found just now, but for a matter of rounding
            self.programme.finer()
            self._prove()
            if self.branch.least < self.cost:
                self.left = self._bounded(self.branch.least)
            return
        for up in (False, True) if parting.part > UP_FIRST else (True, False):
            new = Bound(parting.weights, parting.number + up, up, parting.size)
            rounding = Rounding(parting, up, self.programme.cost())
            self.open.append(self.branch.narrowed([new], self.branch.lying, basis, rounding))
