"""A row in which strips of several sizes may lie over each other: the third stage, mixed.

It is of columns side by side, each as wide as the widest of its strips, which lie one behind the
other. A knapsack fills a column of each width, another fills the row with those columns. As a
column knows nothing of the others, there may not be strips enough for all of them: what is left
of the row is filled again. So a pattern is a good one, and need not be the best.
Source: Gilmore and Gomory, Multistage cutting stock problems of two and more dimensions,
Operations Research 13 (1965), on three stages.
"""

from ...numbers.ordering import in_order
from ..knapsack import solve_knapsack
from ..rows.problem import RowType

STEPS_A_KNAPSACK = 6  # that are as much work as beginning one


class NestedRow(RowType):
    """A type of row of mixed columns.

    Takes: like, the type of row with its length, height and cost; lying, [(size, extent, height,
    turned)], how strips may lie in it.
    Has: found, {counts of a pattern: (length, columns)}, of the patterns found since it last forgot.
    """

    def __init__(self, like, lying):
        ways = [(size, extent, turned, -(-like.height // high)) for size, extent, high, turned in lying]
        RowType.__init__(self, like.capacity * like.step, ways, like.cost, like.store, like.take,
                         origin=like.origin, family=like.family, height=like.height)  # fmt: skip
        self.lying = in_order(
            [(size, extent // self.step, high, turned) for size, extent, high, turned in lying],
            lambda way: way[1],
        )
        self.found = {}

    def best_pattern(self, values, demand, most_steps):
        """Find a pattern that is worth much; see `RowType.best_pattern`. Its upper is no bound."""
        left, columns, capacity, total, steps = list(demand), [], self.capacity, 0, 0
        filled = True
        while filled:
            stacks, more = self._stacks(values, left, capacity, most_steps)
            items = [(worth, extent, _most(stack, left)) for worth, extent, stack in stacks]
            _, placed, _, own = solve_knapsack(capacity, items, most_steps)
            steps += more + own + STEPS_A_KNAPSACK
            filled = False
            for (worth, extent, stack), times in zip(stacks, placed):
                times = min(times, _most(stack, left))
                if times:
                    for size, _, count in stack:
                        left[size] -= count * times
                    columns.append((times, stack))
                    capacity -= extent * times
                    total += worth * times
                    filled = True
        counts = [count - rest for count, rest in zip(demand, left)]
        self.found[tuple(counts)] = (self.capacity - capacity, columns)
        return total, counts, total, steps

    def _stacks(self, values, left, capacity, most_steps):
        # the stack worth most in a column of each width: ([(worth, extent, stack)], steps)
        found, steps, before = [], 0, None
        for number, (_, extent, _, _) in enumerate(self.lying):
            wider = number + 1 < len(self.lying) and self.lying[number + 1][1] == extent
            if wider or extent > capacity:
                continue
            ways = self.lying[: number + 1]
            pieces = [(values[size], high, left[size]) for size, _, high, _ in ways]
            _, placed, _, own = solve_knapsack(self.height, pieces, most_steps)
            steps += own + STEPS_A_KNAPSACK
            worth, stack, rest = 0, [], list(left)
            for place in range(number, -1, -1):
                size, _, _, turned = ways[place]
                # a size may lie both ways in it
                count = min(placed[place], rest[size])
                if count:
                    rest[size] -= count
                    worth += values[size] * count
                    stack.append((size, turned, count))
            # what a narrower column holds as well is left to it
            if stack and stack != before:
                found.append((worth, extent, stack))
                before = stack
        return found, steps

    def columns_of(self, counts):
        """Tell the columns of a pattern: [(times, stack)], a stack [(size, turned, count)], widest first."""
        return self.found[tuple(counts)][1]

    def length_of(self, counts):
        """Tell what a pattern takes of the row; None of one that was not found here."""
        known = self.found.get(tuple(counts))
        return known[0] if known else None

    def forget(self, kept):
        """Forget all patterns but those of these counts, so that they do not fill the phone."""
        self.found = {tuple(counts): self.found[tuple(counts)] for counts in kept}


def _most(stack, left):
    # how many such stacks there are strips for
    counts = [0] * len(left)
    for size, _, count in stack:
        counts[size] += count
    return min([own // count for own, count in zip(left, counts) if count])
