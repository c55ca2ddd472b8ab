"""A stranger adds a calculator by the steps of DEVELOPERS.md: it is in the API, its page, and the phone."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.core.cases_table import check

from .phone import Phone
from .server import ROOT, Server
from .shop import ask
from .stocked import stock

ADDED = Path(__file__).parent / "added"
NAME, ROOM, MODULE = "binding-length", "buying", "binding_length"
CASES = json.loads((ADDED / f"{NAME}.json").read_text(encoding="utf-8"))
ANSWERED = [case for case in CASES if "output" in case]
WIDE = {"viewport": {"width": 1200, "height": 900}, "is_mobile": False}
PARTS = ("backend", "frontend", "tests", "e2e", "demo_fixtures", ".ci", ".gitignore", "DEVELOPERS.md",
         "README.md", "pyproject.toml")  # fmt: skip


def steps():
    """Read the numbered steps of DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.partition("## Adding a calculator\n")[2].partition("\n## ")[0]
    return re.findall(r"^\d\. (.*?)(?=^\d\. |^$)", section, re.MULTILINE | re.DOTALL)


def filled(text):
    return text.replace("<name>", NAME).replace("<room>", ROOM).replace("<module>", MODULE)


def quoted(step):
    """Read what stands in backquotes in a step, its placeholders filled."""
    return [filled(text) for text in re.findall(r"`([^`]+)`", step)]


def copy_tree(root):
    for part in PARTS:
        if (ROOT / part).is_dir():
            shutil.copytree(ROOT / part, root / part, ignore=shutil.ignore_patterns("*.pyc"))
        else:
            shutil.copy(ROOT / part, root / part)


def follow_the_steps(root):
    """Add the calculator to a tree: three files, and a line in each of four."""
    cases, module, line, screen, names = map(quoted, steps())
    for [path, *_], suffix in ((cases, "json"), (module, "py"), (screen, "js")):
        [file] = ADDED.glob(f"*.{suffix}")
        assert not (root / path).exists()
        shutil.copy(file, root / path)
    templates, wording = module[2:4]
    insert(root / wording, rf"{templates} = {{\n", '    "no_join": "one strip goes all the way round",\n')
    entry, table, catalogue = line
    insert(root / catalogue, rf"(?<={table} = \[\n)(?:.+\n)+?(?=\])", f"    {entry}\n")
    readme, changelog = names
    insert(root / readme, "The names: .*\n", f"  `{NAME}`,\n")
    insert(root / changelog, r'"changes": \[\n', '"Bind an edge.",\n')


def insert(file, after, text):
    """Put text into a file, after the one place where a pattern matches."""
    before = file.read_text(encoding="utf-8")
    [found] = re.finditer(after, before)
    file.write_text(before[: found.end()] + text + before[found.end() :], encoding="utf-8")


@pytest.fixture(scope="module")
def project(tmp_path_factory):
    """A copy of the tree with one calculator more."""
    root = tmp_path_factory.mktemp("added") / "project"
    root.mkdir()
    copy_tree(root)
    follow_the_steps(root)
    return root


@pytest.fixture(scope="module")
def served(project, tmp_path_factory):
    """The server of that copy, until a phone has visited it."""
    with Server(tmp_path_factory.mktemp("data"), project) as running:
        yield running


@pytest.fixture(scope="module")
def visited_it(start_chromium, served, tmp_path_factory):
    """Visit the copy once, then end its server: (profile, address)."""
    profile = tmp_path_factory.mktemp("visited") / "profile"
    phone = Phone(start_chromium, profile, served.address)
    phone.switch_on().open("/buy").wait_until_ready_offline()
    phone.switch_off()
    served.stop()
    assert phone.trouble == []
    return profile, served.address


@pytest.fixture
def phone(new_phone, visited_it):
    """A phone that visited once, with its network off and the server dead."""
    profile, address = visited_it
    made = new_phone(address, profile)
    made.switch_on(offline=True)
    return made


def reply_of(context, address, path, **more):
    return context.request.fetch(f"{address}/api/v1{path}", **more)


def test_the_tables_of_the_core_and_of_the_api_run_on_it(project):
    told = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-n0", "-p", "no:cacheprovider", "tests/core", "tests/api",
         "tests/shell", "tests/test_docs.py", "tests/test_architecture.py",
         "-k", f"{NAME} or {MODULE} or named_in_the_readme or has_words or with_words"],
        cwd=project, capture_output=True, text=True,
    )  # fmt: skip
    assert told.returncode == 0, told.stdout
    # each case alone and over HTTP twice, to begin with
    assert int(re.search(r"(\d+) passed", told.stdout)[1]) > 3 * len(CASES)


def test_the_api_lists_it_describes_it_and_answers_its_cases(served, new_phone):
    phone = new_phone(served.address, **WIDE)
    page = phone.switch_on().page
    listed = reply_of(phone.context, served.address, "/calculators").json()
    assert NAME in json.dumps(listed)
    document = reply_of(phone.context, served.address, "/openapi.json").json()
    assert f"/api/v1/calculators/{NAME}" in document["paths"]
    for case in CASES:
        reply = reply_of(
            phone.context, served.address, f"/calculators/{NAME}", method="POST", data=case["input"]
        )
        assert reply.status == (422 if "errors" in case else 200)
        check(case, reply.json())
    page.goto(f"{served.address}/api.html")
    expect(page.locator(f'[data-path$="/calculators/{NAME}"]').first).to_be_visible()


def test_buy_leads_to_its_screen_without_a_network(phone):
    page = phone.screen.open("/buy").page
    page.get_by_role("link", name="Binding").tap()
    phone.screen.wait_for_title("Binding")
    assert page.evaluate("location.pathname") == f"/buy/{NAME}"
    phone.screen.reload()
    phone.screen.wait_for_title("Binding")


def test_the_phone_answers_its_cases_and_so_does_its_form(phone):
    screen = phone.screen.open(f"/buy/{NAME}")
    shown = {"name": NAME, "units": {}, "currency": "EUR"}
    blank = screen.ask_core("blank", shown)["answer"]["typed"]
    for case in CASES:
        told = screen.ask_core("answer", {"name": NAME, "given": case["input"]})
        check(case, told.get("answer", told))
        if case in ANSWERED:
            typed = screen.ask_core("show_inputs", {**shown, "given": case["input"]})["answer"]
            screen.fill({**blank, **typed})
            screen.shows(told["answer"]["result"])


def test_what_is_wrong_is_said_beside_its_field(phone):
    screen = phone.screen.open(f"/buy/{NAME}")
    screen.fill({"width": "0", "length": "wide"})
    expect(screen.problem_at("width")).to_contain_text("at least 1 cm")
    expect(screen.problem_at("length")).to_be_visible()


def test_what_it_notes_is_said_in_its_words(phone):
    screen = phone.screen.open(f"/buy/{NAME}")
    screen.fill(
        {"width": "20", "length": "15.5", "bolt_width": "112", "shrink_length": "0", "shrink_width": "0"}
    )
    expect(screen.page.locator("[data-note=no_join]")).to_have_text("one strip goes all the way round")


def test_why_opens_its_formula_with_her_numbers(phone):
    screen = phone.screen.open(f"/buy/{NAME}")
    screen.fill(
        {"width": "120", "length": "90", "bolt_width": "112", "shrink_length": "0", "shrink_width": "0"}
    )
    screen.shows({"binding_length": 4450})
    screen.page.locator("[data-output=binding_length] summary").tap()
    told = screen.page.locator("[data-output=binding_length] .why-told p")
    expect(told.nth(0)).to_have_text("2 × (width + length) + joining")
    expect(told.nth(1)).to_have_text("= 2 × (120 cm + 90 cm) + 250 mm")
    expect(told.nth(2)).to_have_text("= 445 cm")


def test_it_starts_from_a_saved_cloth_and_puts_a_line_on_the_list(phone):
    screen = stock(phone.screen).open(f"/buy/{NAME}")
    screen.fill({"width": "120", "length": "90"})
    screen.chip("Fog gauze").tap()
    expect(screen.field("bolt_width")).to_have_value("132")
    expect(screen.field("shrink_length")).to_have_value("6")
    # 1320 × 0.96 − 20 = 1247.2 across, 4390 ÷ 1187.2 = 3.7; (240 + 50) ÷ 0.94 = 308.5, in eighths of a yard
    screen.shows({"usable_width": 1247.2, "strips": 4, "length_to_buy": 342.9})
    screen.step("list").tap()
    screen.wait_for_title("Shopping list")
    line = ask(phone, "records", "records", "list-line")[-1]
    [gauze] = [cloth for cloth in ask(phone, "records", "records", "cloth") if cloth["name"] == "Fog gauze"]
    assert (line["name"], line["for_what"], line["cloth"]) == ("Fog gauze", "Binding", gauze["id"])
    assert line["length_to_buy"] == pytest.approx(342.9)
