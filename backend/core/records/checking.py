"""The one check of a record's fields, the same on every phone and on the server."""

from ..declaring.errors import Problems, problem, refuse
from ..declaring.reading import brief, read, read_part
from ..declaring.spec import NEEDED
from .descriptions import DESCRIPTIONS
from .facts import FACTS

KINDS = FACTS + DESCRIPTIONS
_BY_NAME = {kind.name: kind for kind in KINDS}


def kind_named(name):
    """Find a kind.

    Raises: Problems on `kind` if there is none.
    """
    if name in _BY_NAME:
        return _BY_NAME[name]
    refuse("kind", "choice", brief(name), ", ".join([known.name for known in KINDS]), "choice")


def check(kind_name, fields, new):
    """Check the fields of a change; returns them with defaults if it is new.

    Takes: new, true for a fact or the first change of a description; an edit
    carries only the fields it changes.
    Raises: Problems listing every bad field.
    """
    kind = kind_named(kind_name)
    if not new:
        return _edited(kind, fields)
    values = read(kind.fields, fields)
    problems = kind.also(values) if kind.also else []
    if problems:
        raise Problems(problems)
    return values


def _edited(kind, fields):
    values, problems = read_part(kind.fields, fields, "", False)
    needed = [field.name for field in kind.fields if field.default == NEEDED]
    for name in needed:
        if name in values and values[name] is None:
            problems.append(problem(name, "required"))
    if problems:
        raise Problems(problems)
    return values
