"""Column generation: the linear programme solved to the end, its fillings made as they are wanted."""

from .bounds import weigh
from .columns import column_of
from .fullest import fullest
from .master import Master
from .plan import Rows

WORTH_OF_ALL = 268435456  # keeps the whole numbers of the proof small on the phone
FINER = 4194304
MOST_STEPS = 3000
MOST_PIVOTS = 6
A_STEP = 24  # columns looked at that are as much work as a step
SMALL = 1e-5


class Fillings:
    """All columns known so far, each once."""

    def __init__(self, scale):
        self.scale = scale
        self.columns = []
        self.known = {}

    def add(self, rows, sizes):
        """Keep rows that are taken together; returns their column."""
        key = ()
        for row in rows:
            key += (row.kind, row.times) + tuple(row.counts)
            if row.lying.napped:
                key += tuple([row.lying.turned(size) for size in range(sizes)])
        if key not in self.known:
            self.known[key] = column_of(rows, sizes, self.scale)
            self.columns.append(self.known[key])
        return self.known[key]


class Programme:
    """The linear programme of a plan under bounds, a pivot or the pricing of a ladder at a time.

    Takes: usable, a function that says whether a known column may be used; basis,
    columns to begin with.
    Has, once `step` returns true: master; worths, whole numbers of what a piece
    is worth; factors, how often each bound is taken; reaches, for `proof.py`.
    """

    def __init__(self, plan, fillings, bounds, basis, usable):
        self.plan = plan
        self.fillings = fillings
        basis = basis.with_only(usable)
        columns = [column for column in fillings.columns[basis.known :] if usable(column)]
        self.master = Master(plan, fillings.scale, bounds, basis, columns)
        self.effort = 12 + len(basis.columns) + self.master.looked // A_STEP
        self.ladder, self.worths = None, None

    def step(self):
        """Do a little of the work; returns whether nothing more is gained."""
        if self.ladder is None:
            before = self.master.looked
            ended = not (self.master.restore() or self.master.pivot() or self.master.settle())
            self.effort += self._effort_of_pivots(1) + (self.master.looked - before) // A_STEP
            if ended:
                self.worth = self.master.worth = self.master.duals()
                self._begin_pricing()
            return False
        self._price()
        self.ladder += 1
        if self.ladder < len(self.plan.ladders):
            return False
        self.ladder = None
        return not self.new

    def _effort_of_pivots(self, pivots):
        rows = len(self.master.right)
        return pivots * (3 + rows * rows // 90)

    def _begin_pricing(self):
        self._in_whole_numbers(WORTH_OF_ALL)
        self.reaches, self.ladder, self.new = [0] * len(self.plan.kinds), 0, False

    def _in_whole_numbers(self, worth_of_all):
        worth, master = self.worth, self.master
        total = 0.0
        for value, right in zip(worth, master.right):
            total += abs(value * right)
        self.factor = worth_of_all / total if total > 0 else 1.0
        self.worths = [int(max(0.0, value) * self.factor) for value in worth[: master.sizes]]
        # how often each bound is taken: whole numbers too
        self.factors = []
        for value, bound in zip(worth[master.fixed_rows :], master.bounds):
            self.factors.append(int(abs(value) * self.factor / bound.scale))
        self.extra, _ = weigh([0] * len(self.plan.kinds), 0, master.bounds, self.factors)

    def finer(self):
        """Work the reaches out once more, in whole numbers so large that little is lost by rounding."""
        self._in_whole_numbers(WORTH_OF_ALL * FINER)
        for number, kind in enumerate(self.plan.kinds):
            if self._may_lie(kind):
                worths = self._worths_in(number)
                value, _, upper, steps = kind.filled(worths, self.plan.wanted, MOST_STEPS)
                self.reaches[number] = upper if value else worths[_dearest(kind, worths)]
                self.effort += 2 + steps // 8

    def _may_lie(self, kind):
        return kind.pieces and (kind.store is None or kind.take <= self.plan.stores[kind.store])

    def _price(self):
        # the fullest filling of each kind of one ladder, by what pieces are worth
        plan, bought, stored, store = self.plan, [], [], None
        for number in plan.ladders[self.ladder]:
            kind = plan.kinds[number]
            if not self._may_lie(kind):
                continue
            worths = self._worths_in(number)
            value, counts, upper, steps = kind.filled(worths, plan.wanted, MOST_STEPS)
            self.effort += 1 + steps // 16
            if not value:
                # a row may be wanted for a bound alone: it holds something all the same, at a loss
                size = _dearest(kind, worths)
                counts[size] = 1
                value = upper = worths[size]
            self.reaches[number] = upper
            rows, value = Rows(number, kind, counts, 1), value + self.extra[number]
            if kind.store is not None:
                store = kind.store
                stored.append((value, kind.take, plan.stores[store], rows))
            elif kind.cost / self.fillings.scale - value / self.factor < -SMALL and max(counts):
                bought.append(rows)
        for rows in bought:
            self._keep([rows])
        if stored:
            self._price_store(store, stored)

    def _price_store(self, store, stored):
        # the rows that together fill a store best
        value, counts, _, steps = fullest(self.plan.stores[store], [row[:3] for row in stored], MOST_STEPS)
        self.effort += 1 + steps // 16
        if -self.worth[self.master.sizes + store] - value / self.factor < -SMALL:
            self._keep([
                Rows(rows.kind, rows.lying, rows.counts, count)
                for (_, _, _, rows), count in zip(stored, counts)
                if count
            ])  # fmt: skip

    def _keep(self, rows):
        column = self.fillings.add(rows, len(self.plan.wanted))
        for known, _ in self.master.pool:
            if known is column:
                return
        self.master.add(column)
        self.new = True

    def _worths_in(self, number):
        # what pieces are worth in rows of one kind, with the bounds on pieces in them
        worths = self.worths
        if self.master.on_pieces:
            worths = list(worths)
            for row, bound in self.master.on_pieces:
                if bound.weights[number]:
                    factor = self.factors[row - self.master.fixed_rows]
                    worths[bound.size] += factor if bound.at_least else -factor
        return worths

    def ended(self, most):
        """Tell where it ended, for a programme with more bounds; most is the cost that it must be below."""
        gain = max(0.0, most - self.cost()) / self.fillings.scale + SMALL
        return self.master.ended(gain, len(self.fillings.columns))

    def found(self):
        """List what is used of each filling: [(column, amount)]."""
        master = self.master
        return [
            (column, amount)
            for column, amount in zip(master.basis, master.amounts)
            if column.rows and amount > SMALL
        ]

    def held(self):
        """Say whether nothing is left out or broken."""
        for column, amount in zip(self.master.basis, self.master.amounts):
            if not column.rows and column.cost and amount > SMALL:
                return False
        return True

    def cost(self):
        """Add up what is found and what is left out, in whole costs and parts of them."""
        return self.master.cost() * self.fillings.scale

    def outlook(self, bounds, ended):
        """Guess what the cost would be under more bounds, from a few pivots.

        Takes: ended, as `ended` told it. Returns: (cost, effort).
        """
        master = Master(self.plan, self.fillings.scale, bounds, ended, [])
        pivots = 0
        while pivots < MOST_PIVOTS and master.restore():
            pivots += 1
        effort = self._effort_of_pivots(pivots + 2) + master.looked // A_STEP
        return master.cost() * self.fillings.scale, effort


def _dearest(kind, worths):
    best = kind.pieces[0][0]
    for size, _, _ in kind.pieces:
        if worths[size] > worths[best]:
            best = size
    return best
