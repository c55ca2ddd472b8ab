"""The least that an order of batches takes: by trying all, and by an integer programme that HiGHS solves."""

from itertools import permutations

import highspy

PARTS = ("needle", "bobbin", "method", "cloth")
NO_DAY = "9999"


def cost_between(given, one, other):
    """Tell what a change costs; one is None at the start."""
    if given.get("set_ups"):
        names = ["" if one is None else one["name"], other["name"]]
        return sum(row["minutes"] for row in given["set_ups"] if [row["from"], row["to"]] == names)
    before = given.get("at_start") if one is None else one
    if before is None:
        return 0
    return sum(given[f"{part}_minutes"] for part in PARTS if before.get(part, "") != other.get(part, ""))


def cost_of(given, order):
    """Add up an order of batches."""
    return sum(cost_between(given, *pair) for pair in zip([None, *order], order, strict=False))


def least_of_all(given):
    """Try every order that has earlier days first: (least, the first such order in the order of the list)."""
    places = range(len(given["batches"]))
    days = [batch.get("day") or NO_DAY for batch in given["batches"]]
    best = None
    for order in permutations(places):
        in_days = [days[place] for place in order]
        if in_days != sorted(in_days):
            continue
        cost = cost_of(given, [given["batches"][place] for place in order])
        if best is None or cost < best[0] - 1e-9:
            best = (cost, list(order))
    return best


def least_by_highs(given):
    """Solve it as a path through all batches (Miller, Tucker & Zemlin 1960)."""
    batches = [None, *given["batches"]]
    count = len(batches)
    days = [batch.get("day") or NO_DAY for batch in given["batches"]]
    model = highspy.Highs()
    model.silent()
    arcs = {}
    for one in range(count):
        for other in range(count):
            if one == other or (one and other and days[one - 1] > days[other - 1]):
                continue
            # back to the start nothing is changed
            cost = cost_between(given, batches[one], batches[other]) if other else 0
            arcs[one, other] = model.addBinary(obj=cost)
    turns = [model.addVariable(lb=0, ub=count - 1) for _ in range(count)]
    for place in range(count):
        model.addConstr(sum(arc for (one, _), arc in arcs.items() if one == place) == 1)
        model.addConstr(sum(arc for (_, other), arc in arcs.items() if other == place) == 1)
    for (one, other), arc in arcs.items():
        if other:
            model.addConstr(turns[one] + 1 <= turns[other] + count * (1 - arc))
    model.run()
    assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return model.getObjectiveValue()
