"""Modules that always load together, joined into one: each file by itself costs a start some milliseconds.

Each stays in a scope of its own, so that none meets the names of another; all that they export, the joined
one exports. What is written in our scripts and in the vendored ones is understood here, and no more: anything
else raises `CannotJoin`, before a server starts.
"""

import re

from .modules import needed_by, resolved

FROM = r"""\s*["']([^"'\n]+)["'];?"""
IMPORT = re.compile(rf"""(?:^|(?<=;))import\b([^;'"()*]*?)(?:\bfrom)?{FROM}""", re.MULTILINE)
EXPORT_FROM = re.compile(rf"\bexport\s*\{{([^}}]*)\}}\s*from{FROM}")
EXPORT_NAMES = re.compile(r"\bexport\s*\{([^}]*)\};?")
EXPORT_DEFAULT = re.compile(r"(?:^|(?<=;))export default ", re.MULTILINE)
EXPORT_DECLARED = re.compile(r"^export (?=(?:const|class|(?:async )?function\*?) ([\w$]+))", re.MULTILINE)
NOT_UNDERSTOOD = re.compile(r"(?:^|;)(?:import|export)\b(?! *\().*", re.MULTILINE)
# relative to the module that wants it, which the joined one is not
WANTED = re.compile(r"""\bimport\(\s*["'](\.[^"'\n]+)["']""")


class CannotJoin(ValueError):
    """A module says something in a way that is not understood here."""


def join(paths, bodies, known, elsewhere):
    """Join modules into one.

    Takes: paths of the modules; bodies, {path: text} of them; known, the import map {name: path};
    elsewhere, {path: path of the joined one that has it} for others that they import.
    Returns: its text. Raises: CannotJoin, also where two export other things by one name.
    """
    joined = _Joined(known, elsewhere)
    for path in in_order(paths, bodies, known):
        joined.add(path, bodies[path])
    return joined.text()


def in_order(paths, bodies, known):
    """Put modules behind all they import. Raises: CannotJoin where imports lead in a circle."""
    order, around = [], []

    def put(path):
        if path in around:
            raise CannotJoin(f"{path} imports itself by way of {around[-1]}")
        if path in order or path not in paths:
            return
        around.append(path)
        for needed in needed_by(path, bodies[path], known):
            put(needed)
        order.append(around.pop())

    for path in paths:
        put(path)
    return order


class _Joined:
    def __init__(self, known, elsewhere):
        self.known = known
        self.elsewhere = elsewhere
        self.others = {}
        self.scopes = {}
        self.parts = []
        # {(path, name it exports): (path, name) of what that is}
        self.origins = {}

    def add(self, path, body):
        scope = _Scope(path, self)
        body = scope.inner(body)
        if left := NOT_UNDERSTOOD.search(body):
            raise CannotJoin(f"{path}: {left[0]}")
        exports = ", ".join(f"{outer}: {inner}" for outer, inner in scope.exports.items())
        self.scopes[path] = name = f"$m{len(self.scopes)}"
        self.parts.append(f"// {path}\nconst {name} = (() => {{\n{body}\nreturn {{ {exports} }};\n}})();")

    def scope_of(self, path):
        """Name what has the exports of a module that was joined before, in here or elsewhere."""
        if path in self.scopes:
            return self.scopes[path]
        if path not in self.elsewhere:
            raise CannotJoin(f"{path} is imported and not joined")
        return self.others.setdefault(self.elsewhere[path], f"$other{len(self.others)}")

    def text(self):
        others = [f"import * as {name} from '{path}';" for path, name in self.others.items()]
        exports = [
            f"export const {{ {', '.join(names)} }} = {self.scopes[path]};"
            for path, names in self._told_once().items()
        ]
        return "\n".join([*others, *self.parts, *exports, ""])

    def _told_once(self):
        told, by_path = {}, {}
        for (path, name), origin in self.origins.items():
            if name == "default":
                continue
            if name not in told:
                by_path.setdefault(path, []).append(name)
            if told.setdefault(name, origin) != origin:
                raise CannotJoin(f"{name} is exported by {told[name][0]} and by {origin[0]}")
        return by_path


class _Scope:
    """One module's text, its imports and exports written as a function may have them."""

    def __init__(self, path, joined):
        self.path = path
        self.joined = joined
        self.exports = {}
        self.origins = {}

    def inner(self, body):
        for pattern, written in [
            (IMPORT, self._import),
            (EXPORT_FROM, self._export_from),
            (EXPORT_NAMES, self._export_names),
            (EXPORT_DEFAULT, self._export_default),
            (EXPORT_DECLARED, self._export_declared),
            (WANTED, self._wanted),
        ]:
            body = pattern.sub(lambda found, written=written: written(*found.groups()), body)
        return body

    def _import(self, clause, name):
        whole, _, listed = clause.partition("{")
        pairs = [("default", whole.strip(" ,\n"))] if whole.strip() else []
        return self._taken(name, pairs + _pairs(listed.replace("}", "")))

    def _export_from(self, listed, name):
        pairs = [(inner, outer, f"$passed_{outer}") for inner, outer in _pairs(listed)]
        text = self._taken(name, [(inner, own) for inner, _, own in pairs])
        for _, outer, own in pairs:
            self._tell(outer, own)
        return text

    def _export_names(self, listed):
        for inner, outer in _pairs(listed):
            self._tell(outer, inner)
        return ""

    def _export_default(self):
        self._tell("default", "$default")
        return "const $default = "

    def _export_declared(self, name):
        self._tell(name, name)
        return ""

    def _wanted(self, name):
        return f"import('{self._resolved(name)}'"

    def _resolved(self, name):
        return resolved(name, self.path, self.joined.known)

    def _taken(self, name, pairs):
        path = self._resolved(name)
        scope = self.joined.scope_of(path)
        for inner, own in pairs:
            self.origins[own] = self.joined.origins.get((path, inner), (path, inner))
        names = ", ".join(inner if inner == own else f"{inner}: {own}" for inner, own in pairs)
        return f"const {{ {names} }} = {scope};" if pairs else ""

    def _tell(self, outer, inner):
        self.exports[outer] = inner
        self.joined.origins[self.path, outer] = self.origins.get(inner, (self.path, inner))


def _pairs(listed):
    """Read "a, b as c" as [(a, a), (b, c)]."""
    words = [one.split() for one in listed.split(",") if one.strip()]
    return [(one[0], one[-1]) for one in words]
