"""batch-order: the order of batches that takes the least changing of threads, methods and cloths."""

from ..declaring.errors import Problems, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.ordering import in_order
from .set_ups import FINE, PARTS, ListedCosts, PartCosts, bad_set_ups, changes_between

MOST_APART = 12  # batches that are searched: 4096 sets of them
STEPS = 4096
NO_DAY = "9999-99-99"  # behind all others

NEEDLE = Field("needle", "text", "Needle thread", example="sea green")
ON_IT = [
    Field("needle", "text", "Needle thread on the machine", ""),
    Field("bobbin", "text", "Bobbin thread in it", ""),
    Field("method", "text", "What it is set up for", ""),
    Field("cloth", "text", "Cloth that lies ready", ""),
]
BATCH = [
    Field("name", "text", "The batch", example="Everyday, lawn"),
    NEEDLE,
    Field("bobbin", "text", "Bobbin thread", example="white"),
    Field("method", "text", "How it is sewn", example="straight stitch"),
    Field("cloth", "text", "Cloth it is of, where that takes time to change", ""),
    Field("day", "day", "Day it is for: earlier days come first, batches without one last", None),
]
SET_UP = [
    Field("from", "text", "The batch before; empty for the start", ""),
    Field("to", "text", "The batch that comes next"),
    Field("minutes", "minutes", "Minutes to get ready for it"),
]
INPUTS = [
    Field("batches", "list", "Batches to be sewn", fields=BATCH, fewest=1, most=40, group="The batches"),
    Field("at_start", "object", "What is on the machine at the start", None, fields=ON_IT,
          group="The start"),
    Field("needle_minutes", "minutes", "To change the needle thread", 2, group="What a change takes"),
    Field("bobbin_minutes", "minutes", "To change the bobbin", 1, group="What a change takes"),
    Field("method_minutes", "minutes", "To set up another method", 5, group="What a change takes"),
    Field("cloth_minutes", "minutes", "To change the cloth", 0, group="What a change takes"),
    Field("set_ups", "list", "Minutes from each batch to each other, in the place of the changes above", None,
          fields=SET_UP, most=400, group="What a change takes"),
    Field("steps", "count", "How long to look for a better order", STEPS, group="The search"),
]  # fmt: skip

TOLD = [
    Field("name", "text", "The batch"),
    Field("minutes", "minutes", "To get ready for it"),
    Field("changes", "list", "What is changed for it", item=Field("part", "choice", "Part", choices=PARTS),
          most=len(PARTS), drawn=True),
]  # fmt: skip
OUTPUTS = [
    Field("order", "list", "The batches in that order", fields=TOLD, most=40),
    Field("minutes", "minutes", "All changes together",
          formula="{needle_minutes} a needle thread + {bobbin_minutes} a bobbin + {method_minutes} "
                  "a method + {cloth_minutes} a cloth that is changed"),
    Field("as_given", "minutes", "In the order they were given"),
    Field("bound", "minutes", "No order takes less"),
    Field("optimal", "flag", "Proven: no order takes less than this one"),
]  # fmt: skip


class OrderSearch:
    """A search for the best order, backwards over sets of batches that are still to come.

    Takes: days, the day of each group of batches that stay together, as a number; costs, between groups.
    """

    def __init__(self, given, costs, groups, days):
        self.given = given
        self.costs = costs
        self.groups = groups
        self.days = days
        count = len(groups)
        self.between = [
            [0 if last == place else self._between(last, place) for place in range(count)]
            for last in range(count + 1)
        ]
        # of each set that is still to come, as bits: what it takes after each batch, or after the start
        self.rest = [[0] * (count + 1)]
        nearest, listed = self._nearest(), in_order(list(range(count)), lambda place: days[place])
        self.found = listed if self._cost(listed) < self._cost(nearest) else nearest
        self.done = False

    def _between(self, last, place):
        before = None if last == len(self.groups) else self.groups[last][0]
        return self.costs.between(before, self.groups[place][0])

    def _nearest(self):
        found, last = [], len(self.groups)
        left = list(range(len(self.groups)))
        while left:
            row = self.between[last]
            first = min([self.days[place] for place in left])
            can = [place for place in left if self.days[place] == first]
            last = can[0]
            for place in can:
                if row[place] < row[last]:
                    last = place
            found.append(last)
            left.remove(last)
        return found

    def _cost(self, found):
        total, last = 0, len(self.groups)
        for place in found:
            total += self.between[last][place]
            last = place
        return total

    def _spread(self, found):
        return [batch for place in found for batch in self.groups[place]]

    def step(self):
        """Work out one more set of batches that are still to come."""
        bits = len(self.rest)
        count = len(self.groups)
        inside = [place for place in range(count) if bits >> place & 1]
        first = min([self.days[place] for place in inside])
        can = [place for place in inside if self.days[place] == first]
        self.rest.append([
            None if last < count and bits >> last & 1 else self._best_after(last, bits, can)[0]
            for last in range(count + 1)
        ])  # fmt: skip
        if len(self.rest) == 1 << count:
            self.done, self.found = True, self._best()

    def _best_after(self, last, bits, can):
        # what the set takes, and which of it comes next: the first in the list of equal ones
        row, best = self.between[last], (None, None)
        for place in can:
            cost = row[place] + self.rest[bits - (1 << place)][place]
            if best[0] is None or cost < best[0]:
                best = (cost, place)
        return best

    def _best(self):
        found, last = [], len(self.groups)
        bits = (1 << len(self.groups)) - 1
        while bits:
            inside = [place for place in range(len(self.groups)) if bits >> place & 1]
            first = min([self.days[place] for place in inside])
            can = [place for place in inside if self.days[place] == first]
            last = self._best_after(last, bits, can)[1]
            found.append(last)
            bits -= 1 << last
        return found

    def order(self):
        """List the batches in the best order found so far."""
        return self._spread(self.found)


def start(given):
    """Begin to put batches in order; see `work` for what is found.

    Returns: a state for `advance` and `best`, which holds the order that always takes what is nearest, or
    that of the list, earlier days first, where it takes less.
    """
    if given["set_ups"]:
        problems = bad_set_ups(given)
        if problems:
            raise Problems(problems)
    costs = ListedCosts(given) if given["set_ups"] else PartCosts(given)
    groups = _groups(given)
    if len(groups) > MOST_APART:
        refuse("batches", "too_many_set_ups", len(groups), MOST_APART, "count")
    names = in_order([_day(batch) for batch in given["batches"]], lambda day: day)
    days = [names.index(_day(given["batches"][group[0]])) for group in groups]
    return OrderSearch(given, costs, groups, days)


def _day(batch):
    return batch["day"] or NO_DAY


def _groups(given):
    # equal set-ups of one day stay together, which costs nothing; not so with listed costs
    groups, known = [], {}
    for place, batch in enumerate(given["batches"]):
        key = tuple([batch[part] for part in PARTS] + [_day(batch)])
        if key in known and not given["set_ups"]:
            groups[known[key]].append(place)
        else:
            known[key] = len(groups)
            groups.append([place])
    return groups


def advance(state, steps):
    """Work on for so many steps, a set of batches each; returns whether all is proven."""
    for _ in range(steps):
        if state.done:
            break
        state.step()
    return state.done


def best(state):
    """Tell the best order found so far, with a bound that holds: (result, notes)."""
    order, batches = state.order(), state.given["batches"]
    cost, least = _cost_of(state.costs, order), state.costs.least()
    told, last = [], None
    for place in order:
        before = state.given["at_start"] if last is None else batches[last]
        told.append({
            "name": batches[place]["name"],
            "minutes": state.costs.between(last, place) / FINE,
            "changes": changes_between(before, batches[place]),
        })  # fmt: skip
        last = place
    return {
        "order": told,
        "minutes": cost / FINE,
        "as_given": _cost_of(state.costs, list(range(len(batches)))) / FINE,
        "bound": least / FINE,
        "optimal": state.done or cost == least,
    }, []


def _cost_of(costs, order):
    total, last = 0, None
    for place in order:
        total += costs.between(last, place)
        last = place
    return total


def work(given):
    """Put batches in the order that takes the least getting ready, earlier days first.

    A change costs the sum over what differs, in whole thousandths of a minute; the first batch costs nothing
    where nothing is said of the start. Batches of one day with equal set-ups stay together; over 12 that
    differ are refused. Of equal orders the one that takes the first in the list. `bound` holds for any
    order: each thread, method and cloth is put on once, or with listed set-ups each batch comes after its
    best.
    Returns: order, minutes, as_given, bound and optimal, true where all was searched or the bound is met.
    Raises: Problems on too many set-ups, or on listed ones that do not fit the batches.
    Source: Held & Karp, Journal of the Society for Industrial and Applied Mathematics 10 (1962) 196–210.
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


CALCULATOR = Calculator(
    "batch-order",
    "Order of batches",
    "The order of batches that takes the least changing of threads, methods and cloths.",
    INPUTS,
    OUTPUTS,
    work,
    main=("minutes", "as_given"),
    by_steps=(start, advance, best),
)
