"""The arrows between the parts, and the smaller Python of the core, read from the syntax trees."""

import ast
import re
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

from backend.core import bridge, catalogue
from tests.core.alike import has_close

ROOT = Path(__file__).parent.parent
BACKEND, FRONTEND = ROOT / "backend", ROOT / "frontend"
CORE = BACKEND / "core"

# a package of the backend → those of the backend it may import, itself always
ARROWS = {
    "core": set(),
    "fixtures": set(),
    "store": {"core"},
    "sync": {"store", "core"},
    "access": {"store"},
    "calculating": {"core"},
    "observing": set(),
    "gateway": set(),
    "api": {"calculating", "gateway", "observing", "sync", "access", "store", "core"},
    "shell": {"fixtures"},
    "settings": set(),
    "app": {"api", "shell", "store", "settings"},
    "demo": {"sync", "store", "core", "fixtures"},
    "worker": {"app", "api", "gateway", "calculating", "observing", "settings"},
    "serving": {"calculating", "observing", "shell", "access", "store"},
    "cli": {"serving", "settings", "demo", "sync", "access", "store", "core"},
}
# a room of the core, or a module at its top → the rooms it may import from, itself always
ROOMS = {
    "numbers": set(),
    "declaring": {"numbers"},
    "catalogue": {"declaring"},
    "working": {"declaring", "catalogue"},
    "safety": {"numbers", "declaring"},
    "sizing": {"numbers", "declaring"},
    "cutting": {"numbers", "declaring"},
    "buying": {"numbers", "declaring", "cutting"},
    # a record of a size or a cloth has the fields that its calculators declare
    "records": {"numbers", "declaring", "safety", "sizing", "buying"},
    "planning": {"numbers", "declaring", "catalogue", "cutting", "records"},
    "making": {"numbers", "declaring", "catalogue", "records", "planning"},
    "costing": {"numbers", "declaring", "catalogue", "records", "planning", "making"},
    "counting": {"numbers", "declaring", "records"},
    "deciding": {"numbers", "declaring", "catalogue", "records", "planning", "making", "costing", "counting"},
    "selling": {"numbers", "declaring", "catalogue", "records"},
    "reviewing": {
        "numbers",
        "declaring",
        "catalogue",
        "records",
        "costing",
        "deciding",
        "selling",
        "counting",
    },
    "presenting": {"numbers", "declaring", "catalogue", "records", "safety", "costing", "counting"},
    "inventing": {"numbers", "declaring", "catalogue", "records", "counting"},
    "arguments": {"numbers", "declaring"},
    "bridge": {"numbers", "declaring", "arguments"},
}
# the same of the rooms within the room of cutting
ROOMS_OF_CUTTING = {
    "knapsack": set(),
    "placed": set(),
    "roll_costs": set(),
    "rows": {"knapsack"},
    "remnant": {"placed", "knapsack", "rows"},
    "layout": {"placed", "knapsack", "rows"},
    "cutting_layout": {"layout"},
    "elastic_rolls": {"rows", "roll_costs"},
    "remnant_best_mix": {"remnant"},
}
# a library that only some parts may know; a part is a package or a module at the top
KEEPERS = {
    "flask": {"api", "shell", "app", "store"},
    "flask_smorest": {"api"},
    "marshmallow": {"api"},
    "sqlalchemy": {"store"},
    "flask_sqlalchemy": {"store"},
    "flask_migrate": {"store"},
    "granian": {"serving"},
    "prometheus_client": {"observing"},
}

FROM_MATH = {"pi", "sqrt", "floor", "ceil"}
# what the runtimes round each in its way: a number that comes of it is declared as close
CLOSE_MATH = {"exp", "log", "atan"}
BANNED_CALLS = {
    "round", "sum", "repr", "format", "set", "frozenset", "open", "print", "input", "eval", "exec", "compile",
    "globals", "locals", "vars", "id", "hash", "bytes", "bytearray", "complex", "divmod", "pow", "iter",
    "next", "property", "getattr", "setattr",
}  # fmt: skip
# the one door finds a function by its method's name
BY_NAME = {("bridge.py", "getattr")}
BANNED_METHODS = {
    "lower", "upper", "title", "capitalize", "casefold", "swapcase", "zfill", "format", "format_map",
    "isdigit", "isalpha", "isalnum", "isnumeric", "isdecimal", "isspace", "isupper", "islower", "splitlines",
    "expandtabs", "center", "ljust", "rjust", "translate", "maketrans", "hex", "is_integer",
}  # fmt: skip
IN_DICT_ORDER = {"items", "keys", "values", "popitem"}
BANNED_SYNTAX = {
    ast.JoinedStr: "f-string", ast.Match: "match", ast.Set: "set", ast.SetComp: "set", ast.Yield: "generator",
    ast.YieldFrom: "generator", ast.AsyncFunctionDef: "async", ast.Await: "async", ast.Global: "global",
    ast.Nonlocal: "nonlocal", ast.NamedExpr: "walrus", ast.With: "with", ast.TryStar: "except*",
    ast.AnnAssign: "annotation", ast.Delete: "del", ast.Assert: "assert", ast.MatMult: "@",
}  # fmt: skip

# what nothing of the core leads to: its package
NOT_REACHED = {"__init__.py"}

# every sort of the core: how long it can get, and why no tie can be left
SORTS = {
    "bridge.py:": "names of methods: under 80, all different",
    "arguments.py:": "names of currencies: under 50, all different",
    "records/descriptions.py:": "names of currencies: under 50, all different",
    "records/merging.py:_refuse_other_than_held": "keys of what is not of its shape: none, but by a fault",
    "declaring/reading.py:_unknown": "names of unknown fields: at most 200, all different",
    "presenting/explaining.py:_matters": "inputs of one calculator: under 20, by their place at last",
    "buying/cloth_compare.py:_ranked": "at most 20 cloths, by their row at last",
}
# every round of functions of the core that call each other: each goes one level of the declaration down
ROUNDS = {
    "declaring/reading.py": {("_check", "_check_list", "read_part")},
    "declaring/within.py": {("_within", "within")},
    "records/looks.py": {("bad_fields", "check"), ("_look_of", "look_at")},
    "presenting/forms.py": {
        ("_shown", "_shown_rows"),
        ("_typed_defaults",),
        ("_typed_values",),
        ("typed_values",),
    },
    "presenting/record_forms.py": {("_typed",)},
}


def trees(folder):
    return {
        path: ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(folder.rglob("*.py"))
        if "__pycache__" not in path.parts
    }


def core_name(path):
    return path.relative_to(CORE).as_posix()


CORE_TREES = trees(CORE)
CORE_MODULES = pytest.mark.parametrize("path", CORE_TREES, ids=core_name)


def imports(path, tree):
    """List what a module imports: (name, imported), names of our own from `backend` on."""
    package = path.relative_to(ROOT).parts[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, None
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) - node.level + 1] if node.level else ()
            base = ".".join([*above, *([node.module] if node.module else [])])
            for alias in node.names:
                yield base, alias.name


def module_of(name, imported):
    """Find the file of our own that `from name import imported` reads; None for a library."""
    folder = ROOT.joinpath(*name.split("."))
    for path in (
        folder / f"{imported}.py",
        folder / str(imported) / "__init__.py",
        folder.with_suffix(".py"),
    ):
        if path.exists():
            return path
    return folder / "__init__.py" if (folder / "__init__.py").exists() else None


def functions(tree):
    return [node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)]


def calls(node):
    return [inner for inner in ast.walk(node) if isinstance(inner, ast.Call)]


def called(call):
    """Name what is called: `name` or `.method`."""
    if isinstance(call.func, ast.Name):
        return call.func.id
    return "." + call.func.attr if isinstance(call.func, ast.Attribute) else ""


# the core ---------------------------------------------------------------------------------------


@CORE_MODULES
def test_the_core_imports_only_itself_math_and_json(path):
    for name, imported in imports(path, CORE_TREES[path]):
        if name == "math":
            assert imported is None or imported in FROM_MATH | CLOSE_MATH
        elif name != "json":
            assert (name + ".").startswith("backend.core."), name
            assert module_of(name, imported), (name, imported)
    for node in ast.walk(CORE_TREES[path]):
        if isinstance(node, ast.ImportFrom) and node.module not in ("math",):
            assert node.level > 0, "relative only: on the phone there is no backend"
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "math":
            assert node.attr in FROM_MATH, "what is close is imported by its name"


@pytest.mark.parametrize("name, module", catalogue.MODULES)
def test_a_calculator_that_needs_exp_log_or_atan_declares_what_is_close(name, module):
    reached = reached_from([CORE.joinpath(*module.split(".")).with_suffix(".py")])
    needs = any(
        imported in CLOSE_MATH
        for path in reached
        for used, imported in imports(path, CORE_TREES[path])
        if used == "math"
    )
    assert has_close(catalogue.calculator_named(name).outputs) == needs


@CORE_MODULES
def test_the_core_calls_nothing_that_differs_on_the_phone(path):
    for call in calls(CORE_TREES[path]):
        name = called(call)
        assert name not in BANNED_CALLS or (path.name, name) in BY_NAME, f"line {call.lineno}: {name}"
        assert name[1:] not in BANNED_METHODS or name[0] != ".", f"line {call.lineno}: {name}"
        if name in (".split", ".strip"):
            assert call.args, f"line {call.lineno}: {name}() takes other spaces on the phone"
        if name in (".dumps", ".loads"):
            assert len(call.args) == 1 and not call.keywords, (
                f"line {call.lineno}: {name} has no options there"
            )


@CORE_MODULES
def test_the_core_is_written_in_the_smaller_python(path):
    for node in ast.walk(CORE_TREES[path]):
        line = f"line {getattr(node, 'lineno', '?')}"
        assert type(node) not in BANNED_SYNTAX, f"{line}: {BANNED_SYNTAX[type(node)]}"
        if isinstance(node, ast.arguments):
            assert not node.posonlyargs, "positional-only arguments"
        if isinstance(node, ast.Dict):
            assert None not in node.keys, f"{line}: {{**d}}"
        if isinstance(node, ast.List | ast.Tuple):
            assert not any(isinstance(item, ast.Starred) for item in node.elts), f"{line}: [*a]"
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            assert not node.decorator_list, f"{line}: decorator"
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mod):
            assert not isinstance(node.left, ast.Constant), f"{line}: % on a text"
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
            assert isinstance(node.left, ast.Constant) and node.left.value == 10, f"{line}: a power of no 10"


@CORE_MODULES
def test_the_core_never_depends_on_the_order_of_a_dict(path):
    for call in calls(CORE_TREES[path]):
        assert called(call)[1:] not in IN_DICT_ORDER, f"line {call.lineno}: {called(call)}"


@CORE_MODULES
def test_the_core_writes_only_whole_numbers_with_str(path):
    # the runtimes write floats differently: numerals.py writes them digit by digit
    for call in calls(CORE_TREES[path]):
        if called(call) == "str" and path.name != "numerals.py":
            assert isinstance(call.args[0], ast.Name) and call.args[0].id in ("index", "row", "number"), (
                f"line {call.lineno}: str({ast.unparse(call.args[0])})"
            )


@CORE_MODULES
def test_the_core_asks_for_a_flag_before_it_asks_for_a_number(path):
    # True is an int to one runtime and not to the other
    for function in functions(CORE_TREES[path]):
        asked = [(call.lineno, ast.unparse(call)) for call in calls(function) if called(call) == "isinstance"]
        for line, text in asked:
            subject, kinds = text[len("isinstance(") : -1].split(", ", 1)
            if re.search(r"\bint\b", kinds):
                first = (f"isinstance({subject}, bool)",)
                assert any(other in first and at <= line for at, other in asked), f"line {line}: {text}"


def test_every_sort_of_the_core_is_known_to_be_short_and_without_ties():
    for path, tree in CORE_TREES.items():
        inside = {call: function.name for function in functions(tree) for call in calls(function)}
        sorts = [call for call in calls(tree) if called(call) in ("sorted", ".sort")]
        assert {f"{core_name(path)}:{inside.get(call, '')}" for call in sorts} <= set(SORTS)


@CORE_MODULES
def test_every_round_of_calls_in_the_core_is_known_to_end(path):
    assert rounds_of(CORE_TREES[path]) <= ROUNDS.get(core_name(path), set())


def rounds_of(tree):
    """Find the rounds of functions of one module that call each other: a set of sorted names."""
    names = {function.name: function for function in functions(tree)}
    reach = {
        name: {called(call) for call in calls(function)} & set(names) for name, function in names.items()
    }
    for middle in names:
        for name in names:
            if middle in reach[name]:
                reach[name] = reach[name] | reach[middle]
    return {
        tuple(sorted(other for other in reach[name] if name in reach[other]))
        for name in names
        if name in reach[name]
    }


def arrows_inside(folder):
    """List the arrows between modules of a folder of the core: [(path, path)]."""
    return [
        (path, module_of(name, imported))
        for path, tree in CORE_TREES.items()
        if folder in path.parents
        for name, imported in imports(path, tree)
        if name.startswith("backend") and folder in module_of(name, imported).parents
    ]


@pytest.mark.parametrize("folder, rooms", [(CORE, ROOMS), (CORE / "cutting", ROOMS_OF_CUTTING)])
def test_the_arrows_between_the_rooms_of_the_core_never_point_back(folder, rooms):
    for path, used in arrows_inside(folder):
        room, other = (one.relative_to(folder).parts[0].removesuffix(".py") for one in (path, used))
        assert other in rooms[room] | {room}, f"{core_name(path)} imports {core_name(used)}"


def test_no_module_of_the_core_leads_back_to_itself():
    graph = TopologicalSorter()
    for path, used in arrows_inside(CORE):
        graph.add(path, used)
    graph.prepare()


@CORE_MODULES
def test_a_module_of_the_core_is_short_or_one_class_that_reads_whole(path):
    lines = len(path.read_text(encoding="utf-8").splitlines())
    classes = [node for node in ast.walk(CORE_TREES[path]) if isinstance(node, ast.ClassDef)]
    assert lines < (400 if len(classes) == 1 else 300)


def test_no_module_of_the_core_is_left_unused():
    # on the phone all begins at the bridge, which loads the rest by name when first asked
    named = [module for _, module in catalogue.MODULES] + [module for module, _ in bridge.METHODS.values()]
    waiting = [CORE / "bridge.py"]
    waiting += [CORE.joinpath(*module.split(".")).with_suffix(".py") for module in named]
    waiting += [
        found
        for path, tree in trees(BACKEND).items()
        for found in (module_of(*one) for one in imports(path, tree))
        if path not in CORE_TREES and found in CORE_TREES
    ]
    reached = reached_from(waiting)
    assert {core_name(path) for path in CORE_TREES} - {core_name(path) for path in reached} == NOT_REACHED


def reached_from(waiting):
    """Find all modules of the core that some lead to, with the packages they are in."""
    reached = set()
    while waiting:
        path = waiting.pop()
        if path in reached:
            continue
        reached.add(path)
        waiting += [
            found
            for found in (module_of(*one) for one in imports(path, CORE_TREES[path]))
            if found in CORE_TREES
        ]
        if path.parent != CORE:
            waiting.append(path.parent / "__init__.py")
    return reached


# the backend ------------------------------------------------------------------------------------


def part_of(path):
    return path.relative_to(BACKEND).parts[0].removesuffix(".py")


def test_the_arrows_between_packages_never_point_back():
    for path, tree in trees(BACKEND).items():
        for name, imported in imports(path, tree):
            used = module_of(name, imported) if name.startswith("backend") else None
            if used:
                assert part_of(used) in ARROWS[part_of(path)] | {part_of(path)}, f"{path} imports {name}"


def test_every_part_of_the_backend_has_its_arrows():
    # what makes the whole a package holds nothing
    assert {part_of(path) for path in trees(BACKEND)} - {"__init__"} == set(ARROWS)


def test_a_library_is_known_only_where_it_belongs():
    for path, tree in trees(BACKEND).items():
        for name, _ in imports(path, tree):
            library = name.split(".")[0]
            assert part_of(path) in KEEPERS.get(library, {part_of(path)}), f"{path} imports {library}"


@pytest.mark.parametrize("folder", [path.parent.name for path in sorted(BACKEND.glob("*/__init__.py"))])
def test_a_boundary_folder_explains_itself_in_a_few_sentences(folder):
    text = (BACKEND / folder / "README.md").read_text(encoding="utf-8").split("\n## ")[0]
    prose = " ".join(line for line in text.splitlines() if not line.startswith(("#", "|")))
    sentences = [part for part in re.split(r"[.;](?:\s|$)", prose) if len(part.split()) > 3]
    assert 2 <= len(sentences) <= 8, sentences


# the front end ----------------------------------------------------------------------------------

SCRIPTS = [
    path for path in sorted(FRONTEND.rglob("*.js")) if "vendor" not in path.relative_to(FRONTEND).parts
]
# a folder of the front end → the folders it may import from; the page and the workers begin above them
DOWNWARD = {"views": {"views", "data"}, "data": {"data", "core"}, "core": {"vendor"}}
ONLY_BELOW = r"\b(fetch|XMLHttpRequest|indexedDB|openDB|new Worker|sendBeacon|WebSocket)\b"


def script_imports(path):
    """List the paths a script imports, relative ones as files; bare names are vendored libraries."""
    text = path.read_text(encoding="utf-8")
    names = re.findall(r"""(?:^|\n)\s*(?:import|export)\s[^;'"]*?from\s+['"]([^'"]+)['"]""", text)
    names += re.findall(r"""(?:^|\n)\s*import\s+['"]([^'"]+)['"]""", text)
    names += re.findall(r"""\bimport\(\s*['"]([^'"]+)['"]""", text)
    return [name if name[0] not in "./" else resolved(path, name) for name in names]


def resolved(path, name):
    return (FRONTEND / name[1:] if name[0] == "/" else path.parent / name).resolve()


@pytest.mark.parametrize("path", SCRIPTS, ids=lambda path: path.relative_to(FRONTEND).as_posix())
def test_the_front_end_imports_downward_only(path):
    folder = path.relative_to(FRONTEND).parts[0]
    for used in script_imports(path):
        if isinstance(used, str) or folder not in DOWNWARD:
            continue
        assert used.exists(), used
        part = used.relative_to(FRONTEND).parts[0]
        assert part in DOWNWARD[folder], f"{folder} imports {used.relative_to(FRONTEND)}"
        if folder == "data" and part == "core":
            assert used.name == "core-client.js"


def test_the_store_alone_knows_the_disk_and_it_knows_nothing_of_what_is_kept_there():
    store = FRONTEND / "data" / "store"
    beside = {FRONTEND / "data" / "painted.js", "idb"}
    for path in SCRIPTS:
        used = set(script_imports(path))
        if path.parent == store:
            assert {one for one in used if one not in beside and Path(one).parent != store} == set(), path
        else:
            assert "idb" not in used, path


def test_the_imports_of_the_front_end_are_seen():
    found = {used for path in SCRIPTS for used in script_imports(path)}
    assert FRONTEND / "core" / "core-client.js" in found
    assert "htm/preact" in found
    assert any(isinstance(used, Path) and "data" in used.parts for used in found)


@pytest.mark.parametrize(
    "path", sorted((FRONTEND / "views").rglob("*.js")), ids=lambda path: path.relative_to(FRONTEND).as_posix()
)
def test_a_view_never_sees_the_network_the_database_or_a_worker(path):
    text = re.sub(r"/\*.*?\*/|//[^\n]*", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    assert not re.search(ONLY_BELOW, text)
    assert not re.search(r"\.postMessage\(", text)


# the reader itself ------------------------------------------------------------------------------


def test_rounds_of_calls_are_found():
    tree = ast.parse("def a(): b()\ndef b(): c()\ndef c(): a()\ndef d(): a()\ndef e(): e()\n")
    assert rounds_of(tree) == {("a", "b", "c"), ("e",)}


@pytest.mark.parametrize("table", [ARROWS, ROOMS, ROOMS_OF_CUTTING])
def test_a_table_of_arrows_has_no_way_back(table):
    order = list(table)
    assert all(below in order[: order.index(name)] for name in order for below in table[name])
