"""The days with takings, and what each came to."""

from ..numbers.ordering import in_order
from ..records.reader import kinds_of_takings, readable
from ..records.uses import TAKINGS
from ..selling.takings import Takings


def days_taken(facts, voids):
    """Add up money taken and given back by day and booking.

    Takes: facts, each once; voids, {sale: true}.
    Returns: [{"day", "booking", and what `takings` tells}], the latest day
    first; booking is None for what was at none. What cannot be read is set aside.
    """
    rows = taken_by(("day", "booking"), readable(facts, TAKINGS), voids)
    rows.reverse()
    return rows


def taken_by(names, facts, voids):
    """Add up money by some fields of its facts.

    Takes: names of fields that hold text or None; facts, checked, in any
    order, one after the other.
    Returns: [{names…, and what `takings` tells}], in the order of the fields' texts.
    """
    found, summed = {}, kinds_of_takings()
    for fact in facts:
        if fact["kind"] in summed:
            key = tuple([fact.get(name) or "" for name in names])
            if key not in found:
                found[key] = Takings()
            found[key].add(fact, voids)
    rows = []
    for key in in_order(list(found), lambda key: key):
        row = {name: part or None for name, part in zip(names, key)}
        row.update(found[key].told())
        rows.append(row)
    return rows
