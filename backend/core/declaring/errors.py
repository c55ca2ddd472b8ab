"""Problems and notes as data, worded only at the edge (see presenting/wording.py)."""


class Problems(Exception):
    """Bad input: carries every problem found, each a dict made by `problem`."""

    def __init__(self, problems):
        super().__init__("bad input")
        self.problems = problems


def problem(field, rule, given=None, limit=None, quantity=None):
    """Make one problem: what was given for which field, and what is allowed.

    Takes: field, a dotted path such as `cloths.2.bolt_width`; rule, a key of
    wording.TEMPLATES; given and limit, in the quantity's base unit.
    """
    return {"field": field, "rule": rule, "given": given, "limit": limit, "quantity": quantity}


# A note has the same shape: something worth saying about a good answer.
note = problem


def refuse(field, rule, given=None, limit=None, quantity=None):
    """Raise Problems holding the one problem described."""
    raise Problems([problem(field, rule, given, limit, quantity)])
