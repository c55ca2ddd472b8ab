"""Styles are grouped by place: what one place alone wears carries its name, and lies in its file."""

import re

import pytest

from backend.app import FRONTEND

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
        for words in WORN.findall(path.read_text(encoding="utf-8")):
            for name in re.findall(r"[a-z][\w-]*", " ".join(words)):
                found.setdefault(name, set()).add(where)
    return found


def test_there_is_a_file_for_each_place():
    assert [place for place in PLACES if not (FRONTEND / "views" / place).is_dir()] == []
    assert len(PLACES) >= 6


@pytest.mark.parametrize("place", PLACES)
def test_a_places_styles_are_about_what_it_alone_wears(place):
    found = selectors(STYLES / "places" / f"{place}.css")
    assert [one for one in found if not any(name.startswith(place + "-") for name in classes_of(one))] == []


def test_what_one_place_alone_wears_carries_its_name():
    styled = {name for path in STYLES.rglob("*.css") for one in selectors(path) for name in classes_of(one)}
    wrong = []
    for name, where in worn_in().items():
        prefix = name.split("-")[0]
        if name in styled and (len(where) == 1 and where <= set(PLACES)) != (prefix in where):
            wrong.append((name, sorted(where)))
    assert wrong == []


def test_no_style_of_one_place_lies_among_the_shared():
    shared = [name for one in selectors(STYLES / "parts.css") for name in classes_of(one)]
    assert [name for name in shared if name.split("-")[0] in PLACES] == []
