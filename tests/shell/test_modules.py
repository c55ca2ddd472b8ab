"""A page's scripts are found by following their imports, so that they load at once."""

import json
import re

from backend.shell.assets import Asset
from backend.shell.modules import modules_of

PAGE = """<script type="importmap">{"imports": {"preact": "/vendor/preact.mjs"}}</script>
<script type="module" src="/app.js"></script>"""
SCRIPTS = {
    "/app.js": """import { render } from 'preact';
import './data/store.js';
const load = (other) => import(other ? '/views/other.js' : '/views/later.js');
const each = '/views/each/';
const rest = () => import('./data/soon.js');""",
    "/vendor/preact.mjs": 'export{a as render};import{b}from"preact/none"',
    "/data/store.js": """export const text = 'import { no } from "./none.js"';
/* import('/views/none.js') */""",
    "/views/later.js": """import {
  one,
  two,
} from './parts/one.js';
import './parts/both.js';
export { three } from '../data/store.js';""",
    "/views/other.js": "import './parts/both.js';",
    "/views/parts/both.js": "export const five = 5;",
    "/views/each/one.js": "import '../parts/both.js';",
    "/views/each/two.js": "import '../parts/both.js';",
    "/views/each/deeper/no.js": "export const six = 6;",
    "/data/soon.js": "import './store.js'; import './sooner.js';",
    "/data/sooner.js": "export const four = 4;",
    "/views/parts/one.js": "export const one = fetch('/views/later.json');",
}


def modules():
    return modules_of(PAGE, {path: Asset(path, text.encode()) for path, text in SCRIPTS.items()})


def test_what_a_page_imports_is_loaded_at_its_start():
    first, _, _ = modules()
    assert first[:3] == ["/app.js", "/vendor/preact.mjs", "/data/store.js"]


def test_what_most_modules_of_later_need_is_loaded_at_its_start_too():
    first, _, _ = modules()
    assert first[3:] == ["/views/parts/both.js"]


def test_what_the_shell_wants_after_its_paint_is_told_apart():
    _, soon, _ = modules()
    assert soon == ["/data/soon.js", "/data/sooner.js"]


def test_what_is_wanted_later_is_listed_with_all_it_needs_beside_that():
    _, _, later = modules()
    assert later["/views/other.js"] == [] and later["/views/later.js"] == ["/views/parts/one.js"]


def test_a_folder_in_quotes_stands_for_each_module_in_it():
    _, _, later = modules()
    assert later.keys() - {"/views/other.js", "/views/later.js"} == {
        "/views/each/one.js",
        "/views/each/two.js",
    }


def test_the_real_page_loads_each_screen_with_all_its_imports(real):
    page = real.get("/").get_data(as_text=True)
    first = re.findall(r'<link rel="modulepreload" href="([^"]+)">', page)
    assert first == re.findall(r'<script type="module" src="([^"]+)"', page) == ["/start.js"]
    later = json.loads(re.search(r'id="modules">(.*?)</script>', page)[1])
    assert "/views/parts/field.js" in later["/views/buy/calculators/strip-length.js"]
    for path in {*first, *later, *(module for needed in later.values() for module in needed)}:
        assert real.get(path).content_type.startswith("text/javascript"), path
