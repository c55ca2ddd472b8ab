"""What each role may write, and what it is shown."""

from ..declaring.errors import Problems, problem
from .checking import kind_named
from .kinds import NOTHING


def refuse_beyond_role(kind_name, fields, role, new):
    """Refuse a change that its writer's role does not allow.

    Takes: fields as given (before defaults are filled in); role, owner or
    helper; new, true for a fact or the first change of a description.
    Raises: Problems: `role` on the kind, or `owner_only` on each such field.
    """
    if role == "owner":
        return
    kind = kind_named(kind_name)
    if kind.helper in ("read", NOTHING) or (kind.helper == "make" and not new):
        raise Problems([problem("kind", "role", kind.name)])
    problems = [problem(name, "owner_only") for name in kind.owner_only if name in fields]
    if problems:
        raise Problems(problems)


def seen_by(kind_name, fields, role):
    """Leave out what only owners see."""
    hidden = kind_named(kind_name).hidden_from(role)
    return {name: fields[name] for name in fields if name not in hidden}
