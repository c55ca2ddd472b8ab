"""Modules joined into one do what each did by itself."""

import json
import re

import pytest

from backend.app import FRONTEND
from backend.shell.assets import read_assets
from backend.shell.joining import CannotJoin, in_order, join
from backend.shell.modules import import_map, modules_of, needed_by, resolved

KNOWN = {"lib": "/vendor/lib.mjs", "lib/more": "/vendor/more.mjs"}
SCRIPTS = {
    "/app.js": """import { one as first, two } from './data/one.js';
import own, { more } from 'lib';
import './views/aside.js';
console.log(first, two(), own, more, html);""",
    "/data/one.js": """export const one = 1;
const inner = 2;
export async function two() { return inner; }
export { passed as given } from '../views/other.js';
export class Three {}
const text = `
a line that does not export anything`;
export { inner };""",
    "/views/other.js": "const inner = 3;\nexport const passed = inner;\nimport('./later.js');",
    "/views/aside.js": "import { given } from '../data/one.js';",
    "/vendor/lib.mjs": 'import{h as r}from"lib/more";var t=r;'
    "export default function(n){return t}export{t as more};",
    "/vendor/more.mjs": "var a=1;export{a as h};\n//# sourceMappingURL=more.mjs.map",
}


def joined(scripts=None, elsewhere=None, known=KNOWN):
    scripts = SCRIPTS | (scripts or {})
    return join([path for path in scripts if path not in (elsewhere or {})], scripts, known, elsewhere or {})


def test_modules_stand_behind_all_they_import():
    order = in_order(list(SCRIPTS), SCRIPTS, KNOWN)
    assert sorted(order) == sorted(SCRIPTS)
    for path in order:
        assert all(order.index(one) < order.index(path) for one in needed_by(path, SCRIPTS[path], KNOWN))


def test_no_import_or_export_is_left_but_those_of_the_whole():
    text = joined()
    told = [line for line in text.splitlines() if re.match("import [^(]|export", line)]
    assert told == [
        "export const { passed } = $m0;",
        "export const { given, inner, one, two, Three } = $m1;",
        "export const { h } = $m2;",
        "export const { more } = $m3;",
    ]


def test_each_has_what_it_imports_under_the_name_that_it_gives_it():
    text = joined()
    assert "const { one: first, two } = $m1;" in text
    assert "const { default: own, more } = $m3;" in text
    assert "const { h: r } = $m2;" in text
    assert "const { passed: $passed_given } = $m0;" in text and "given: $passed_given" in text
    assert "const $default = function(n){return t}" in text and "default: $default" in text


def test_what_was_joined_before_is_imported_from_there():
    text = joined(elsewhere={"/data/one.js": "/start.js", "/views/other.js": "/start.js"})
    assert text.startswith("import * as $other0 from '/start.js';\n")
    assert "const { one: first, two } = $other0;" in text


def test_what_is_wanted_later_keeps_its_address():
    assert "import('/views/later.js')" in joined()


@pytest.mark.parametrize(
    "text, told",
    [
        ("export let counted = 0;", "export let counted"),
        ("export * from './data/one.js';", "export \\*"),
        ("import * as all from './data/one.js';", "import \\* as all"),
        ("import { two } from './none.js';", "/none.js is imported and not joined"),
        ("export const one = 5;", "one is exported by /data/one.js and by /more.js"),
        ("import { own } from './app.js'; import './more.js';", "/more.js imports itself by way of /more.js"),
    ],
)
def test_what_is_not_understood_is_refused(text, told):
    with pytest.raises(CannotJoin, match=told):
        joined({"/more.js": text})


def test_one_thing_may_be_passed_on_by_two():
    exports = joined({"/more.js": "export { one } from './data/one.js';"}).partition("\nexport ")[2]
    assert len(re.findall(r"\bone\b", exports)) == 1


def test_imports_that_lead_in_a_circle_are_refused():
    with pytest.raises(CannotJoin, match="by way of /b.js"):
        join(["/a.js", "/b.js"], {"/a.js": "import './b.js';", "/b.js": "import './a.js';"}, {}, {})


def test_the_real_ones_tell_every_name_that_other_modules_import(real):
    """A browser would refuse to load a module that imports what nobody exports."""
    assets = read_assets(FRONTEND)
    page = assets["/index.html"].body.decode()
    known, (first, soon, later) = import_map(page), modules_of(page, assets)
    at = dict.fromkeys(first, "/start.js") | dict.fromkeys(soon, "/soon.js")
    told = {
        path: set(
            re.findall(r"[\w$]+", " ".join(re.findall(r"^export const \{ (.*) \} = ", text, re.MULTILINE)))
        )
        for path in ("/start.js", "/soon.js")
        for text in [real.get(path).get_data(as_text=True)]
    }
    asked = 0
    for path in set(later).union(*later.values()) - at.keys():
        imports = re.findall(r"import\s*([^;'\"]*?)\s*from\s*'([^']+)'", assets[path].body.decode())
        for clause, name in imports:
            if target := at.get(resolved(name, path, known)):
                names = re.fullmatch(r"\{(.*)\}", clause, re.DOTALL)[1].split(",")
                asked += len(names)
                assert {one.split()[0] for one in names if one.strip()} <= told[target], (path, name)
    assert asked > 500


def test_the_page_finds_each_joined_module_by_its_own_address(real):
    page = real.get("/").get_data(as_text=True)
    names = json.loads(re.search(r'<script type="importmap">(.*?)</script>', page, re.DOTALL)[1])["imports"]
    assert names["preact"] == names["/data/store/log.js"] == names["/app.js"] == "/start.js"
    assert names["/data/sync.js"] == "/soon.js"
    assert names["qr"] == "/vendor/qr/decode.js"
