"""Styles are grouped by place: what one place alone wears carries its name, and lies in its file."""

import ast
import re
from pathlib import Path

import pytest

from backend.app import FRONTEND

E2E = Path(__file__).parent.parent.parent / "e2e"
STYLES = FRONTEND / "styles"
PLACES = sorted(path.stem for path in (STYLES / "places").glob("*.css"))
VIEWS = [path for path in FRONTEND.rglob("*.js") if "vendor" not in path.parts]
COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
WORN = re.compile(r'class="([^"]*)"|class=\$\{([^{}]*)\}')


def selectors(path):
    """List the selectors of a style sheet, those of a list one by one."""
    text = COMMENT.sub("", path.read_text(encoding="utf-8"))
    lists = [found.strip() for found in re.findall(r"([^{};]+)\{", text)]
    return [
        one.strip() for some in lists if not some.startswith("@") for one in re.split(r",(?![^()]*\))", some)
    ]


def classes_of(selector):
    return re.findall(r"\.([a-z][\w-]*)", selector)


def worn_in():
    """Tell who wears a class: {class: {folder of views or path}}."""
    found = {}
    for path in VIEWS:
        parts = path.relative_to(FRONTEND).parts
        where = parts[1] if parts[0] == "views" and len(parts) > 2 else "/".join(parts)
        for words, choice in WORN.findall(path.read_text(encoding="utf-8")):
            for name in " ".join([words, *re.findall(r"'([^']*)'", choice)]).split():
                found.setdefault(name, set()).add(where)
    return found


def styled():
    """Name the classes that a style sheet has a rule for."""
    return {name for path in STYLES.rglob("*.css") for one in selectors(path) for name in classes_of(one)}


def sought():
    """Name the classes that tests in a browser look for."""
    nodes = [
        node for path in E2E.rglob("*.py") for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    ]
    texts = [node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return {name for text in texts for name in classes_of(text)}


def test_there_is_a_file_for_each_place():
    assert [place for place in PLACES if not (FRONTEND / "views" / place).is_dir()] == []
    assert len(PLACES) >= 6


@pytest.mark.parametrize("place", PLACES)
def test_a_places_styles_are_about_what_it_alone_wears(place):
    found = selectors(STYLES / "places" / f"{place}.css")
    assert [one for one in found if not any(name.startswith(place + "-") for name in classes_of(one))] == []


def test_what_one_place_alone_wears_carries_its_name():
    wrong, with_rules = [], styled()
    for name, where in worn_in().items():
        prefix = name.split("-")[0]
        if name in with_rules and (len(where) == 1 and where <= set(PLACES)) != (prefix in where):
            wrong.append((name, sorted(where)))
    assert wrong == []


def test_no_style_of_one_place_lies_among_the_shared():
    files = sorted((STYLES / "parts").glob("*.css"))
    shared = [name for path in files for one in selectors(path) for name in classes_of(one)]
    assert len(shared) > 100
    assert [name for name in shared if name.split("-")[0] in PLACES] == []


def test_every_file_of_parts_and_places_is_told_of_once_and_no_rule_lies_beside_them():
    told = COMMENT.sub("", (STYLES / "parts.css").read_text(encoding="utf-8")).split("\n")
    files = [path.relative_to(STYLES).as_posix() for path in STYLES.glob("*/*.css")]
    assert sorted(filter(None, told)) == sorted(f'@import "{name}";' for name in files)


def test_no_class_is_worn_that_has_no_rule_and_that_no_test_looks_for():
    assert set(worn_in()) - styled() - sought() == set()
