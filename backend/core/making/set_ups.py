"""What it takes to get ready for the next batch: the threads, the method and the cloth that differ."""

from ..declaring.errors import problem
from ..numbers.rounding import half_up

PARTS = ("needle", "bobbin", "method", "cloth")
FINE = 1000  # parts of a minute: whole numbers add up alike in any order
START = ""  # how a list of set-ups calls what is on the machine at the start


def in_fine(minutes):
    """Turn minutes into whole thousandths. Example: in_fine(1.5) == 1500"""
    return half_up(minutes * FINE)


def changes_between(one, other):
    """List the parts in which two batches differ. Example: changes_between({"needle": "red"}, None) == []"""
    return [part for part in PARTS if one[part] != other[part]] if one and other else []


class PartCosts:
    """Costs that add up over what differs: a way round is never shorter."""

    def __init__(self, given):
        self.batches = given["batches"]
        self.start = given["at_start"]
        self.minutes = {part: in_fine(given[part + "_minutes"]) for part in PARTS}

    def between(self, one, other):
        """Tell what it takes to get ready for a batch after another, None for the start."""
        before = self.start if one is None else self.batches[one]
        total = 0
        for part in changes_between(before, self.batches[other]):
            total += self.minutes[part]
        return total

    def least(self):
        """Tell what no order comes below: each value of a part is put on once."""
        total = 0
        for part in PARTS:
            values = {batch[part]: True for batch in self.batches}
            there = self.start is None or self.start[part] in values
            total += self.minutes[part] * (len(values) - (1 if there else 0))
        return total


class ListedCosts:
    """Costs as they are listed, from one batch by name to another."""

    def __init__(self, given):
        self.names = [batch["name"] for batch in given["batches"]]
        self.minutes = {(row["from"], row["to"]): in_fine(row["minutes"]) for row in given["set_ups"]}
        self.has_start = bool([row for row in given["set_ups"] if row["from"] == START])

    def between(self, one, other):
        """Tell what it takes to get ready for a batch after another, None for the start."""
        if one is None:
            return self.minutes[(START, self.names[other])] if self.has_start else 0
        return self.minutes[(self.names[one], self.names[other])]

    def least(self):
        """Tell what no order comes below: each batch after its best, but for a first one that is free."""
        places = range(len(self.names))
        each = []
        for other in places:
            before = [one for one in places if one != other] + ([None] if self.has_start else [])
            each.append(min([self.between(one, other) for one in before]) if before else 0)
        total = 0 if self.has_start else -max(each)
        for minutes in each:
            total += minutes
        return total


def bad_set_ups(given):
    """List what is wrong with listed set-ups: names twice or unknown, pairs twice or missing."""
    names = [batch["name"] for batch in given["batches"]]
    problems = [
        problem("batches." + str(index) + ".name", "name_twice", name)
        for index, name in enumerate(names)
        if name in names[:index]
    ]
    known, pairs = {name: True for name in names}, {}
    for index, row in enumerate(given["set_ups"]):
        field, pair = "set_ups." + str(index), (row["from"], row["to"])
        if row["from"] not in known and row["from"] != START:
            problems.append(problem(field + ".from", "batch_unknown", row["from"]))
        if row["to"] not in known:
            problems.append(problem(field + ".to", "batch_unknown", row["to"]))
        if pair in pairs:
            problems.append(problem(field, "set_up_twice"))
        pairs[pair] = True
    if not problems:
        problems += _missing(names, pairs)
    return problems


def _missing(names, pairs):
    starts = [START] if [name for name in names if (START, name) in pairs] else []
    for before in names + starts:
        for name in names:
            if before != name and (before, name) not in pairs:
                return [problem("set_ups", "set_up_missing", name, before or "the start")]
    return []
