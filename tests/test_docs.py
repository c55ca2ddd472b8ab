"""What the documentation says, and what the tree says of itself, is so."""

import argparse
import ast
import fnmatch
import json
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from backend.app import create_app
from backend.cli import make_parser
from backend.core.catalogue import calculators
from e2e.server import command_of

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CI = (ROOT / ".ci/run").read_text(encoding="utf-8")

TOP_LEVEL = {
    ".biome.jsonc", ".ci", ".gitignore", "DEVELOPERS.md", "README.md", "backend", "demo_fixtures", "e2e",
    "frontend", "pyproject.toml", "tests",
}  # fmt: skip
NOT_OURS = {"frontend/vendor"}
TEXTS = {".css", ".html", ".js", ".json", ".md", ".py", ".svg", ".toml", ".txt", ".webmanifest", ""}
LEFT_BEHIND = re.compile(r"\b(TODO|FIXME|XXX|HACK)\b")  # this line is the one place they may stand
MACHINE_PATHS = re.compile(r"(?<![\w.])/(?:home|root|Users|work|tmp/venv)/")  # and these

EXPORTED = re.compile(r"^export (?:async )?(?:function\*?|const|let|class) (\w+)", re.MULTILINE)
CALL = re.compile(r"(\w+)(\(.*\))?")

CORE_MODULES = [
    ".".join(path.relative_to(ROOT).with_suffix("").parts)
    for path in sorted((ROOT / "backend/core").rglob("*.py"))
]


def ours():
    """List the files of the project, without those that git ignores."""
    ignored = (ROOT / ".gitignore").read_text(encoding="utf-8").split() + [".git/"]
    found = []
    for folder, folders, files in os.walk(ROOT):
        place = Path(folder).relative_to(ROOT)
        folders[:] = [name for name in folders if not is_ignored(place / name, ignored)]
        found += [place / name for name in files if not is_ignored(place / name, ignored)]
    return sorted(path for path in found if not str(path).startswith(tuple(NOT_OURS)))


def is_ignored(path, patterns):
    for pattern in patterns:
        target = f"/{path}" if pattern.startswith("/") else path.name
        if fnmatch.fnmatch(target, pattern.rstrip("/")):
            return True
    return False


def commands():
    """Read the commands of the table in DEVELOPERS.md."""
    rows = DEVELOPERS.partition("## Commands")[2].partition("\n## ")[0]
    return re.findall(r"^\| .* \| `(.+)` \|$", rows, re.MULTILINE)


def modules_of(room):
    """Name the modules of a folder, without what makes it a package."""
    return [path.name for path in sorted(room.glob("*.py")) if path.name != "__init__.py"]


def rooms_with_a_table():
    """List the folders of the backend whose README names a module of theirs in a table."""
    return [
        readme.parent
        for readme in sorted((ROOT / "backend").rglob("README.md"))
        if any(
            re.search(rf"^\|.*`{re.escape(name)}`", readme.read_text(encoding="utf-8"), re.MULTILINE)
            for name in modules_of(readme.parent)
        )
    ]


def rows_for_screens():
    """Read the rows of the table of functions that screens call."""
    text = (ROOT / "frontend/data/README.md").read_text(encoding="utf-8")
    rows = text.partition("## For screens")[2].partition("\n## ")[0]
    return re.findall(r"^\| (?!to \||---)(.*) \|$", rows, re.MULTILINE)


def subcommands():
    """Read every command of `boltfair`, with the long options of it and of its own subcommands."""
    return {name: options_of(command) for name, command in parts_of(make_parser()).items()}


def parts_of(parser):
    parts = [action.choices for action in parser._actions if isinstance(action, argparse._SubParsersAction)]
    return parts[0] if parts else {}


def options_of(parser):
    own = {option for action in parser._actions for option in action.option_strings} - {"-h", "--help"}
    return own.union(*map(options_of, parts_of(parser).values()))


# The frame


def test_the_top_level_holds_what_it_should_and_nothing_else():
    assert {path.parts[0] for path in ours()} == TOP_LEVEL


@pytest.mark.parametrize(
    "pattern", [LEFT_BEHIND, MACHINE_PATHS], ids=["notes to self", "paths of one machine"]
)
def test_nothing_is_left_behind_in_a_file(pattern):
    found = []
    for path in ours():
        if path.suffix in TEXTS:
            lines = (ROOT / path).read_text(encoding="utf-8").splitlines()
            found += [f"{path}:{number}" for number, line in enumerate(lines, 1) if pattern.search(line)]
    allowed = [place for place in found if place.startswith("tests/test_docs.py:")]
    assert found == allowed and len(allowed) <= 1


# The words


@pytest.mark.parametrize(
    "document", ["README.md", "DEVELOPERS.md", "demo_fixtures/README.md", "e2e/README.md"]
)
def test_every_path_and_picture_a_document_names_is_there(document):
    text = (ROOT / document).read_text(encoding="utf-8")
    base = (ROOT / document).parent
    top = "|".join(re.escape(name) for name in TOP_LEVEL)
    named = re.findall(rf"`((?:{top})(?:/[\w./-]+)?)`", text)
    linked = re.findall(r"\]\((?!https?:)([^)#]+)\)", text)
    missing = [name for name in named if not (ROOT / name).exists()]
    missing += [name for name in linked if not (base / name).exists()]
    assert missing == []


@pytest.mark.parametrize("room", rooms_with_a_table(), ids=lambda room: room.relative_to(ROOT).as_posix())
def test_a_room_whose_readme_has_a_table_of_files_names_each_of_them(room):
    text = (room / "README.md").read_text(encoding="utf-8")
    assert [name for name in modules_of(room) if f"`{name}`" not in text] == []


def test_each_file_of_the_store_is_in_the_table_of_its_readme():
    text = (ROOT / "frontend/data/README.md").read_text(encoding="utf-8").partition("| in `store/`")[2]
    files = sorted((ROOT / "frontend/data/store").glob("*.js"))
    assert files and [path.name for path in files if f"`{path.name}`" not in text] == []


@pytest.mark.parametrize("row", rows_for_screens(), ids=lambda row: row.partition(" |")[0])
def test_every_function_for_screens_is_exported_by_a_file_its_row_names(row):
    quoted = re.findall(r"`([^`]+)`", row)
    named = [name if "/" in name else f"data/{name}" for name in quoted if name.endswith(".js")]
    files = [ROOT / "frontend" / name for name in named]
    exported = {name for file in files for name in EXPORTED.findall(file.read_text(encoding="utf-8"))}
    told = [call for call in (CALL.fullmatch(text) for text in quoted) if call]
    # a row may say more of what a function takes
    taken = {name for call in told for name in re.findall(r"\w+", call[2] or "")}
    assert {call[1] for call in told} - taken - exported == set()


def test_every_calculator_is_named_in_the_readme():
    assert [calculator.name for calculator in calculators() if f"`{calculator.name}`" not in README] == []


def test_every_subcommand_and_option_is_documented():
    text = README + DEVELOPERS
    for name, options in subcommands().items():
        assert f"boltfair {name}" in text
        assert [option for option in options if not re.search(rf"{option}(?![\w-])", text)] == []


def test_every_documented_subcommand_and_option_is_there():
    known = subcommands()
    used = re.findall(
        r"boltfair ([a-z]+)\b([^`\n]*)", "\n".join(re.findall(r"`[^`\n]+`", README + DEVELOPERS))
    )
    assert {"serve"} < {name for name, _ in used}
    for name, rest in used:
        assert name in known
        assert set(re.findall(r"--[a-z-]+", rest)) <= known[name]


def test_ci_runs_the_readmes_test_command_as_it_stands():
    [command] = re.findall(r"^(python3 -m venv .* -m tests)$", README, re.MULTILINE)
    assert command == CI.splitlines()[-1]


# The commands


@pytest.mark.parametrize("command", [command for command in commands() if not command.startswith("npm ")])
def test_a_command_of_the_table_is_there(command):
    ran = subprocess.run(cheapest_form(command), cwd=ROOT, capture_output=True, text=True)
    assert ran.returncode == 0, ran.stderr


@pytest.mark.parametrize("command", [command for command in commands() if command.startswith("npm ")])
def test_a_command_of_npm_in_the_table_is_there(command):
    # read and not run: tests need no npm
    name, prefix, folder, *words = shlex.split(command)
    package = json.loads((ROOT / folder / "package.json").read_text(encoding="utf-8"))
    assert (name, prefix) == ("npm", "--prefix")
    assert words == ["ci"] or (words[0] == "run" and words[1] in package["scripts"])


def cheapest_form(command):
    """Turn a command into one that only shows it is there: its help, or a shell script's syntax."""
    program, *arguments = shlex.split(command)
    if not program.startswith(".venv/bin/"):
        assert os.access(ROOT / program, os.X_OK)
        return ["bash", "-n", program]
    program = Path(program).name
    running = command_of(ROOT) if program == "boltfair" else [Path(sys.executable).with_name(program)]
    # what names the program: a module, a script or a subcommand
    named = arguments[:2] if arguments[0] == "-m" else arguments[:1]
    return [*running, *named, "--help"]


# The examples


def test_the_readmes_call_answers_as_the_readme_says():
    [(address, body)] = re.findall(r"curl -s http://127.0.0.1:8080(\S+) -H '[^']*' -d '([^']*)'", README)
    [told] = re.findall(r"```json\n(.*?)```", README, re.DOTALL)
    reply = create_app().test_client().post(address, data=body, content_type="application/json")
    assert reply.json == json.loads(told)


def docstrings(module):
    """Read the docstrings of a module: (name, whether it is public, text or None)."""
    tree = ast.parse((ROOT / module.replace(".", "/")).with_suffix(".py").read_text(encoding="utf-8"))
    yield module, True, ast.get_docstring(tree)
    methods = [node for part in tree.body if isinstance(part, ast.ClassDef) for node in part.body]
    for node in tree.body + methods:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield f"{module}.{node.name}", not node.name.startswith("_"), ast.get_docstring(node)


def test_every_public_thing_of_the_core_has_a_docstring():
    told = [entry for module in CORE_MODULES for entry in docstrings(module)]
    assert len(told) > 100
    assert [name for name, public, text in told if public and not text] == []
