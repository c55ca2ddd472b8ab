"""What a server runs on is pinned, down to what its libraries need, and it is what was tested here."""

import tomllib
from importlib.metadata import requires, version
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parent.parent
LINES = (ROOT / "backend" / "deploy" / "constraints.txt").read_text(encoding="utf-8").splitlines()
PINS = [Requirement(line) for line in LINES if not line.startswith("#")]
HERE = {canonicalize_name(pin.name): pin for pin in PINS if not pin.marker or pin.marker.evaluate()}
DECLARED = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def needed():
    """Follow what is declared down to the last library: the names of all that a server here runs on."""
    found = {}
    waiting = [
        Requirement(line)
        for line in DECLARED["dependencies"] + DECLARED["optional-dependencies"]["postgresql"]
    ]
    while waiting:
        wanted = waiting.pop()
        extras = found.setdefault(canonicalize_name(wanted.name), set())
        new = {"", *wanted.extras} - extras
        extras |= new
        waiting += [
            inner
            for inner in map(Requirement, requires(wanted.name) or [] if new else [])
            if not inner.marker or any(inner.marker.evaluate({"extra": extra}) for extra in new)
        ]
    return set(found)


def test_all_that_a_server_runs_on_is_pinned():
    assert needed() - set(HERE) == set()


def test_nothing_else_is():
    assert set(HERE) - needed() == set()


def test_what_is_pinned_is_what_was_tested():
    assert {name: version(name) for name in HERE if version(name) not in HERE[name].specifier} == {}


def test_one_version_of_each_is_pinned():
    assert [str(pin) for pin in PINS if [it.operator for it in pin.specifier] != ["=="]] == []
