"""What is recorded, for what adds it up: facts that stand in the order of their times, records made whole."""

from ..declaring.reading import read_part
from ..numbers.ordering import in_order
from .checking import kind_named
from .reader import once, readable, voided
from .uses import SHOWN


class Recorded:
    """Facts that stand, and descriptions.

    What cannot be read is set aside, facts and records alike; `standing` has the facts in the order of
    their times.
    Takes: facts, in any order, each with its kind, id and at, with what voids them; records,
    {kind: {id: fields}}.
    """

    def __init__(self, facts, records):
        known = once(readable(facts, SHOWN))
        never = voided(known, SHOWN)
        self.facts, self.records, self.found, self.made = {}, records, {}, {}
        in_time = in_order(known, lambda fact: (fact["at"], fact["id"]))
        self.standing = [fact for fact in in_time if fact["id"] not in never]
        for fact in self.standing:
            self.facts.setdefault(fact["kind"], []).append(fact)

    def of(self, kind):
        """List the facts of a kind, the earliest first, with what was left out of them; for reading."""
        whole = kind_named(kind).completed
        return self.once(kind, lambda: [whole(fact) for fact in self.facts.get(kind, [])])

    def once(self, name, make):
        """Tell what was made of all this under a name, made when first asked."""
        if name not in self.made:
            self.made[name] = make()
        return self.made[name]

    def record(self, kind, id):
        """Find a description, its defaults filled in; None where it is not here."""
        key = (kind, id)
        if key not in self.found:
            self.found[key] = _whole(kind_named(kind).fields, self._of_kind(kind).get(id))
        return self.found[key]

    def ids(self, kind, may_be=None):
        """List the ids of a kind's descriptions, the earliest made first.

        Takes: may_be, a function of what was given of one: where it says no, that is left out unread.
        """
        given = self._of_kind(kind)
        return [
            id
            for id in self._in_order_made(kind)
            if isinstance(given[id], dict) and (may_be is None or may_be(given[id])) and self.record(kind, id)
        ]

    def last(self, kind, is_one):
        """Find the description of a kind made last of which `is_one` says so, None for none.

        Those made before it are not read.
        """
        for id in reversed(self._in_order_made(kind)):
            record = self.record(kind, id)
            if record and is_one(record):
                return record
        return None

    def business(self):
        """Tell of the business, its defaults where it is not described."""
        ids = self.ids("business")
        return self.record("business", ids[0]) if ids else kind_named("business").completed({})

    def _in_order_made(self, kind):
        return self.once("ids of " + kind, lambda: in_order(list(self._of_kind(kind)), lambda id: id))

    def _of_kind(self, kind):
        found = self.records.get(kind)
        return found if isinstance(found, dict) else {}


def _whole(fields, given):
    if not isinstance(given, dict):
        return None
    told = {field.name: given[field.name] for field in fields if given.get(field.name) is not None}
    whole, problems = read_part(fields, told, "", True)
    return None if problems else whole
