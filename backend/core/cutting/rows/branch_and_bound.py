"""Branch and bound for the least cost of rows, with its proof: a few steps at a time.

It branches on how many rows there are from some height up, and on pieces; each node is
bounded by the linear programme over patterns (`column_generation.py`), whose bound is
proven in whole numbers (`dual_bound.py`). Whenever it is stopped there is a valid layout,
the incumbent, and a valid bound: the least of the bounds of the nodes still open.
"""

from .branching import INTEGRAL, candidates_of, row_counts
from .column_generation import ColumnGeneration, ColumnPool
from .columns import WarmStart
from .constraints import Constraint, count_of_rows, with_constraints
from .dual_bound import DualBound
from .heuristics.dive import Dive
from .heuristics.greedy import complete
from .heuristics.local_search import LocalSearch
from .heuristics.trim import trim
from .nap import agrees, majority, most_mixed, orientations_of, pieces_by_side
from .node import Node, choices_of_charges
from .pacing import Pace, is_wide
from .problem import PatternRun, is_within_stores, lies_alike, rank
from .pseudo_costs import Decision, PseudoCosts
from .rounding_cuts import MOST_ROUNDS, violated_cuts

# moves of the local search after a dive: the first, any other, where the gap is wide, and at last
FIRST_MOVES = 20
MOVES = 6
MOVES_WHERE_WIDE = 8
LAST_MOVES = 12
MOST_TURNS = 3000  # of a dive where nothing is left to branch on
DEEPER = 0.2  # of the gap: a node just made is gone on from at once while its bound is within it
NEARLY = 0.99999
NODES_A_STEP = 64  # open nodes looked at that are as much work as a step
UP_FIRST = 0.4  # the fraction of a number above which it is rounded up first


class BranchAndBound:
    """A search that can be stopped at any step.

    Takes: problem.
    Has: layout, the incumbent (None where nothing is found), cost, bound, done,
    effort, a measure of the work so far that is the same on every machine.
    """

    def __init__(self, problem):
        # phase: (one step of it, {its outcome: the phase that follows}); a step without an outcome goes on
        self.phases = {
            "start": (self._start, {"found": "select"}),
            "select": (self._select, {"selected": "solve", "none left": "finish"}),
            "solve": (self._solve, {"solved": "bound"}),
            "bound": (self._bound, {"pruned": "select", "cut": "solve", "open": "round"}),
            "round": (self._round, {"pruned": "select", "dive": "dive", "open": "branch"}),
            "dive": (self._dive, {"ended": "improve"}),
            "improve": (self._improve, {"pruned": "select", "open": "branch"}),
            "branch": (self._branch, {"branched": "select", "doubtful": "probe", "undecided": "dive again"}),
            "dive again": (self._dive_again, {"settled": "select"}),
            "probe": (self._probe, {"branched": "select"}),
            "finish": (self._finish, {}),
        }
        self.problem = problem
        self.areas = problem.areas
        self.layout, self.cost, self.rank = None, None, None
        self.bound = 0
        self.done = False
        self.effort = 0
        self.pool = ColumnPool(max([row_type.cost for row_type in problem.row_types]) or 1)
        self.undecided = problem.undecided()
        self.open_nodes = []
        self.node, self.relaxation, self.node_problem = None, None, problem
        self.dive, self.local_search = None, None
        self.unresolved = None
        self.supply_limits = []
        self.explored = 0
        self.pace = Pace()
        self.cuts, self.cut_rounds = [], 0
        self.pseudo_costs, self.candidates = PseudoCosts(), []
        self._enter("start")

    def step(self):
        """Do a little of the work."""
        if not self.done:
            self.effort += 1
            outcome = self.work()
            if outcome is not None:
                self._enter(self.after[outcome])

    def _enter(self, phase):
        self.work, self.after = self.phases[phase]

    # the first layout, and the nodes to begin with

    def _start(self):
        for turned in (False, True):
            orientations = {pair: turned for pair in self.undecided}
            self._complete(self.problem.restricted(orientations, []), [], self.areas)
            if not self.undecided:
                break
        if self.layout is None:
            self.done = True
            return None
        for run in self.layout:
            if run.row_type.store is None:
                one = PatternRun(run.type_number, run.row_type, run.counts, 1)
                self.pool.add([one], len(self.problem.demand))
        self.supply_limits = [
            count_of_rows(self.problem, [number], row_type.most, False)
            for number, row_type in enumerate(self.problem.row_types)
            if row_type.most is not None and not row_type.last
        ]
        for numbers in self.problem.families:
            lasts = [number for number in numbers if self.problem.row_types[number].last]
            # what ends a store is seen to where the store is filled
            if lasts and self.problem.row_types[lasts[0]].store is None:
                self.supply_limits.append(count_of_rows(self.problem, lasts, 1, False))
        for closed, charge in choices_of_charges(self.problem):
            self.open_nodes.append(Node(self.supply_limits, {}, closed, charge, 0, WarmStart([])))
        return "found"

    def _complete(self, problem, layout, values):
        layout, effort = complete(problem, layout, values)
        self.effort += effort
        self._offer(layout)

    def _offer(self, layout):
        if layout is None:
            return
        self.effort += len(layout)
        if lies_alike(layout):
            self._take(trim(self.problem, layout))

    def _take(self, layout):
        new = rank(self.problem, layout)
        if (self.rank is None or new < self.rank) and is_within_stores(self.problem, layout):
            self.layout, self.rank, self.cost = layout, new, new[0]

    # a node and its relaxation

    def _select(self):
        # the node of least bound, or one just made of it that is not much worse, to come to whole rows
        best = None
        for place, node in enumerate(self.open_nodes):
            if node.bound < self.cost and (best is None or node.bound <= self.open_nodes[best].bound):
                best = place
        if best is None:
            self.bound = self._with_unresolved(self.cost)
            self._begin_moves(LAST_MOVES)
            return "none left"
        bound = self.open_nodes[best].bound
        if self.open_nodes[-1].bound <= bound + (self.cost - bound) * DEEPER:
            best = len(self.open_nodes) - 1
        self.node = self.open_nodes.pop(best)
        self.bound = self._with_unresolved(bound)
        self.node_problem = self.problem.restricted(self.node.orientations, self.node.closed)
        self.effort += len(self.open_nodes) // NODES_A_STEP
        if self.node_problem is not self.problem:
            self.effort += len(self.problem.row_types)
        self._relax(self.node.warm_start)
        return "selected"

    def _with_unresolved(self, bound):
        # a node that was left undecided bounds all
        return bound if self.unresolved is None else min(bound, self.unresolved)

    def _relax(self, warm_start):
        constraints = self.cuts + self.node.constraints
        self.relaxation = ColumnGeneration(
            self.node_problem, self.pool, constraints, warm_start, self._is_allowed
        )
        self.effort += self.relaxation.effort

    def _is_allowed(self, column):
        node = self.node
        return column.runs[0].row_type.family not in node.closed and agrees(column, node.orientations)

    def _solve(self):
        before = self.relaxation.effort
        solved = self.relaxation.step()
        self.effort += self.relaxation.effort - before
        return "solved" if solved else None

    # its bound

    def _bound(self):
        relaxation, node = self.relaxation, self.node
        if node.decision:
            self.pseudo_costs.update(node.decision, min(relaxation.cost(), self.cost - node.charge))
            node.decision = None
        proof = self._prove()
        if node.bound < self.cost and relaxation.cost() + node.charge > self.cost * NEARLY - 1:
            # the programme says that nothing better is here: it is a matter of rounding
            relaxation.refine()
            proof = self._prove()
        self.solution = relaxation.solution()
        self.row_counts = row_counts(self.problem, self.solution)
        if node.bound >= self.cost:
            return "pruned"
        return "cut" if self._may_cut() and self._cut(proof) else "open"

    def _prove(self):
        relaxation, total = self.relaxation, 0
        before = relaxation.effort
        for value, count in zip(relaxation.values, self.problem.demand):
            total += value * count
        row_values, total = with_constraints(
            relaxation.row_values, total, relaxation.master.constraints, relaxation.multipliers
        )
        proof = DualBound(self.node_problem, row_values, total)
        bound = proof.least_cost(max(1, self.cost - self.node.charge))
        if bound:
            self.node.bound = max(self.node.bound, bound + self.node.charge)
        self.effort += proof.effort + relaxation.effort - before
        return proof

    def _may_cut(self):
        # only what holds for the whole problem is kept for all nodes
        is_whole = self.node_problem is self.problem and self.node.constraints == self.supply_limits
        return is_whole and self.cut_rounds < MOST_ROUNDS

    def _cut(self, proof):
        self.cut_rounds += 1
        new = violated_cuts(self.problem, proof.row_values, proof.total, self.row_counts)
        self.effort += 20
        # those that hold nothing are dropped
        known = zip(self.cuts, self.relaxation.multipliers)
        self.cuts = [cut for cut, multiplier in known if multiplier or not new] + new
        if new:
            self._relax(self._warm_start())
        return bool(new)

    def _warm_start(self):
        return self.relaxation.warm_start(self.cost - self.node.charge)

    # better incumbents

    def _round(self):
        self.sides = pieces_by_side(self.solution)
        orientations = majority(self.undecided, self.sides, self.node.orientations)
        problem = self.problem.restricted(orientations, self.node.closed)
        layout = [
            PatternRun(run.type_number, run.row_type, run.counts, run.times * int(amount + INTEGRAL))
            for column, amount in self.solution
            if amount >= 1 - INTEGRAL and agrees(column, orientations)
            for run in column.runs
        ]
        self.candidates = candidates_of(self.problem, self.solution)
        self.effort += 2 * len(self.solution)
        trying = self.pace.is_due(self.explored) or not self.candidates
        if trying:
            self.rank_before = self.rank
            self._complete(problem, layout, self.relaxation.values)
            self._complete(problem, layout, self.areas)
        if not self.candidates:
            # the rows may be whole where what is taken from a store is mixed of several columns
            self._complete(problem, self._rows_of(orientations), self.areas)
        self.explored += 1
        if self.node.bound >= self.cost:
            return "pruned"
        if not trying:
            return "open"
        self.dive = self._dive_from(orientations, 0)
        return "dive"

    def _dive_from(self, orientations, turns):
        closed = self.node.closed
        problem = self.problem.restricted(orientations, closed)
        return Dive(
            problem,
            self.pool,
            self.solution,
            self.areas,
            lambda column: column.runs[0].row_type.family not in closed and agrees(column, orientations),
            turns,
        )

    def _rows_of(self, orientations):
        # the whole rows in the solution, like ones of all columns together, as far as the stores reach
        places, runs, amounts = {}, [], []
        for column, amount in self.solution:
            for run in column.runs if agrees(column, orientations) else []:
                key = (run.type_number, tuple(run.counts))
                if key not in places:
                    places[key] = len(runs)
                    runs.append(run)
                    amounts.append(0.0)
                amounts[places[key]] += amount * run.times
        layout, left, ended = [], list(self.problem.stores), []
        for run, amount in zip(runs, amounts):
            times, row_type = int(amount + INTEGRAL), run.row_type
            if row_type.last:
                times = 0 if row_type.family in ended else min(times, 1)
            if row_type.store is not None:
                times = min(times, left[row_type.store] // row_type.take)
                left[row_type.store] -= times * row_type.take
            if times:
                ended += [row_type.family] if row_type.last else []
                layout.append(PatternRun(run.type_number, row_type, run.counts, times))
        return layout

    def _go_down(self):
        before = self.dive.effort
        self.dive.step(self.cost)
        for layout in self.dive.layouts:
            self._offer(layout)
        self.dive.layouts = []
        self.effort += self.dive.effort - before
        return self.dive.done

    def _dive(self):
        if not self._go_down():
            return None
        again = MOVES_WHERE_WIDE if is_wide(self.cost, self.bound) else MOVES
        self._begin_moves(again if self.local_search else FIRST_MOVES)
        return "ended"

    def _begin_moves(self, count):
        if self.local_search is None:
            self.local_search = LocalSearch(self.problem, self.layout)
        elif self.rank < self.local_search.rank:
            self.local_search.take_over(self.layout)
        self.moves_left = count

    def _improve(self):
        self._move()
        pruned = self.node.bound >= self.cost
        if self.moves_left and not pruned:
            return None
        self.pace.tried(self.explored, self.rank < self.rank_before or is_wide(self.cost, self.bound))
        return "pruned" if pruned else "open"

    def _move(self):
        local_search, values = self.local_search, self.areas
        if self.moves_left % 2 and self.relaxation and self.relaxation.values:
            values = self.relaxation.values
        orientations = majority(self.undecided, {}, orientations_of(local_search.layout))
        bound = self.bound - (self.node.charge if self.node else 0)
        self.effort += local_search.step(self.problem.restricted(orientations, []), values, bound)
        self._take(local_search.layout)
        self.moves_left -= 1

    def _finish(self):
        # the cost is settled: of equal ones what uses up first what it should, with fewest settings
        self._move()
        self.bound = self._with_unresolved(self.cost)
        self.done = not self.moves_left

    # parts of the node

    def _branch(self):
        self.warm_start = self._warm_start()
        self.effort += 4 + self.relaxation.effort_of_looking()
        pair = most_mixed(self.undecided, self.sides)
        if pair is not None:
            for turned in (False, True):
                orientations = dict(self.node.orientations)
                orientations[pair] = turned
                self.open_nodes.append(self.node.narrowed([], orientations, self.warm_start))
            return "branched"
        if not self.candidates:
            orientations = majority(self.undecided, self.sides, self.node.orientations)
            self.dive = self._dive_from(orientations, MOST_TURNS)
            return "undecided"
        is_old = self.warm_start.master.is_old()
        self.doubtful = [] if is_old else self.pseudo_costs.unreliable(self.candidates)
        return "doubtful"

    def _dive_again(self):
        # whole numbers of rows and of pieces in parts of rows: nothing to branch on is left
        if not self._go_down() and self.node.bound < self.cost:
            return None
        if self.node.bound < self.cost:
            self.relaxation.refine()
            self._prove()
        if self.node.bound < self.cost:
            self.unresolved = self._with_unresolved(self.node.bound)
        return "settled"

    def _probe(self):
        # strong branching, one decision a step; then the candidate of best score
        if not self.doubtful:
            self._branch_on(self.pseudo_costs.best(self.candidates))
            return "branched"
        candidate, up = self.doubtful.pop()
        constraints = self.cuts + self.node.narrowed([_rounded(candidate, up)], {}, None).constraints
        cost, effort = self.relaxation.probe(constraints, self.warm_start)
        self.effort += effort
        decision = Decision(candidate, up, self.relaxation.cost())
        self.pseudo_costs.update(decision, min(cost, self.cost - self.node.charge))
        return None

    def _branch_on(self, candidate):
        node = self.node
        for up in (False, True) if candidate.fraction > UP_FIRST else (True, False):
            decision = Decision(candidate, up, self.relaxation.cost())
            rounded = [_rounded(candidate, up)]
            self.open_nodes.append(node.narrowed(rounded, node.orientations, self.warm_start, decision))


def _rounded(candidate, up):
    return Constraint(candidate.weights, candidate.floor + up, up, candidate.size)
