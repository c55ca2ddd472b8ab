"""The core on the phone's runtime, offline in its worker, gives what it gives under CPython."""

import json
import shutil
from datetime import date
from random import Random

import pytest

from backend.core import bridge
from backend.core.catalogue import NAMES, calculators
from backend.core.numbers.money import EXPONENTS
from backend.core.numbers.units import UNITS
from backend.core.reviewing.year_files import FILES
from backend.demo.loading import evenings
from backend.fixtures import read_all
from tests.core.alike import assert_alike, exact
from tests.core.cases_table import check, load_cases
from tests.core.counting.random_facts import SESSIONS, history
from tests.core.cutting.plans import any_plan, fine_plan, nests_plan, realistic_plan, small_plan
from tests.core.planning.mixes import random_records, small_mix
from tests.core.random_inputs import random_inputs
from tests.core.reviewing.market_day import BOXES, DAY, HOURS, facts_of_a_day

from .phone import Phone
from .server import ROOT

CORE = ROOT / "backend" / "core"
BATCH = 100
BUSINESS = "0190a000-0000-7000-8000-000000000001"
SEED = 20261125
# of a long calculation, no more than a call of the phone's core has the time for
MOST_STEPS = 10000

ASK = """async (asked) => {
  const { call } = await import('/core/core-client.js');
  const told = [];
  for (const { method, args } of asked) told.push(await call(method, args));
  return JSON.stringify(told);
}"""

# what the worker does, with a look at each module by itself
IMPORT_EACH = """async (names) => {
  const { loadMicroPython } = await import('/vendor/micropython/micropython.mjs');
  const python = await loadMicroPython();
  const { files } = await (await fetch('/core.json')).json();
  for (const [path, source] of Object.entries(files)) {
    const folders = path.split('/').slice(0, -1);
    folders.forEach((_, depth) => {
      const folder = `/lib/${folders.slice(0, depth + 1).join('/')}`;
      if (!python.FS.analyzePath(folder).exists) python.FS.mkdirTree(folder);
    });
    python.FS.writeFile(`/lib/${path}`, source);
  }
  python.runPython("import sys; sys.path.append('/lib')");
  const failed = {};
  for (const name of names) {
    try {
      python.runPython(`import ${name}`);
    } catch (error) {
      failed[name] = String(error);
    }
  }
  return failed;
}"""


def on_the_phone(screen, asked):
    """Ask the worker of a phone that is offline, in batches."""
    told = []
    for start in range(0, len(asked), BATCH):
        # as text with escapes: half a surrogate pair does not travel otherwise
        batch = json.dumps(asked[start : start + BATCH])
        told += json.loads(screen.page.evaluate(f"(text) => ({ASK})(JSON.parse(text))", batch))
    return told


def here(asked):
    """Ask the same door under CPython."""
    return [json.loads(bridge.call(json.dumps(question))) for question in asked]


def assert_all_alike(asked, told):
    """Assert that what a calculator's answer was asked for came out as it does here."""
    for question, one, other in zip(asked, told, here(asked), strict=True):
        assert_alike(question["args"]["name"], one, other)


def answers_to(calculator, inputs):
    return [{"method": "answer", "args": {"name": calculator, "given": given}} for given in inputs]


@pytest.fixture(scope="module")
def asked_phone(start_chromium, visited, tmp_path_factory):
    """The one phone that is asked everything here, offline."""
    profile, address = visited
    place = tmp_path_factory.mktemp("asked") / "profile"
    shutil.copytree(profile, place, symlinks=True)
    phone = Phone(start_chromium, place, address)
    phone.switch_on(offline=True)
    yield phone
    phone.switch_off()
    assert phone.trouble == []


@pytest.fixture
def core(asked_phone):
    """A page of it, whose core has been asked nothing yet."""
    return asked_phone.screen.start_at("/buy")


def test_every_case_holds_on_the_phone(core):
    cases = load_cases()
    asked = [question for name, case in cases for question in answers_to(name, [case["input"]])]
    told = on_the_phone(core, asked)
    assert_all_alike(asked, told)
    for (_, case), reply in zip(cases, told, strict=True):
        check(case, reply.get("answer", reply))


def in_time(given):
    """Let a long calculation end early."""
    steps = given.get("steps")
    return {**given, "steps": MOST_STEPS} if type(steps) is int and steps > MOST_STEPS else given


@pytest.mark.full
@pytest.mark.parametrize("name", NAMES)
def test_two_runtimes_agree_on_random_inputs(core, how_many, name):
    asked = answers_to(name, map(in_time, random_inputs(name, how_many(150, 2000), SEED)))
    told = on_the_phone(core, asked)
    assert_all_alike(asked, told)
    assert sum("answer" in reply for reply in told) > len(asked) // 5
    assert any("problems" in reply for reply in told)


@pytest.mark.full
@pytest.mark.parametrize("make", [small_plan, any_plan, realistic_plan])
def test_two_runtimes_lay_out_alike(core, how_many, make):
    steps = how_many(2000, MOST_STEPS)
    asked = answers_to(
        "cutting-layout",
        [
            {**make(number), "stages": stages, "steps": steps}
            for number in range(how_many(4, 200))
            for stages in (2, 3)
        ],
    )
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


def test_two_runtimes_take_the_same_way_where_whole_costs_would_be_large(core):
    # steps and all: a search that takes another way may come to another layout
    asked = answers_to("cutting-layout", [fine_plan()])
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


def test_two_runtimes_find_the_same_mixed_stacks(core):
    asked = answers_to("cutting-layout", [nests_plan(number) for number in (44, 126)])
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


def test_what_a_remnant_could_give_is_asked_and_cut_apart_alike(core, how_many):
    asked = [{"method": "remnant_mix", "args": random_records(number)} for number in range(how_many(60, 600))]
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert sum("answer" in reply for reply in told) > len(asked) // 2
    asked = []
    for number in range(how_many(60, 600)):
        given, result = small_mix(number)
        args = {
            "given": given,
            "placed": result["placed"],
            "first": result["first_cuts"],
            "layers": 1 + number % 4,
        }
        args["lying"] = ("either", "across", "along")[number % 3] if not given["rotate"] else "either"
        asked.append({"method": "laid_mix", "args": {**args, "strips": [{"length": 3, "width": 2}]}})
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert all("answer" in reply for reply in told)


def test_an_invented_year_is_the_same_year(core):
    for day in ("2026-01-01", "2026-06-20"):
        given = {"fixtures": read_all(), "business": BUSINESS, "day": day, "offset_minutes": 120}
        asked = [{"method": "begin_year", "args": given}]
        asked += [{"method": "live_days", "args": {"most": 30}}] * 13
        told = on_the_phone(core, asked)
        assert exact(told) == exact(here(asked))
        assert told[-1]["answer"]["left"] == 0
        assert sum(len(reply["answer"]["changes"]) for reply in told[1:]) > 7000


def test_every_module_of_the_core_imports_on_the_phone(core):
    modules = [
        ".".join(path.relative_to(CORE.parent).with_suffix("").parts).removesuffix(".__init__")
        for path in sorted(CORE.rglob("*.py"))
    ]
    assert len(modules) > 30
    assert core.page.evaluate(IMPORT_EACH, modules) == {}


def test_a_module_that_does_not_import_is_named(core):
    assert list(core.page.evaluate(IMPORT_EACH, ["core.numbers.money", "core.nothing", "dataclasses"])) == [
        "core.nothing",
        "dataclasses",
    ]


def test_both_runtimes_declare_the_same(core):
    asked = [{"method": "describe", "args": {}}]
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


def briefly(name, given):
    """Let a long calculation end early: each question here has it start anew."""
    calculator = calculators()[NAMES.index(name)]
    return {**given, "steps": 200} if calculator.by_steps else given


MIXED_UNITS = {"strip_length": "in", "bolt_width": "yd", "loop": "in", "=cut_length": "in"}


def has_one_of(name, units):
    """Whether a calculator has a field or an output that a unit is for; to any other, no unit is new."""
    declared = json.dumps(calculators()[NAMES.index(name)].describe())
    return any(f'"name": "{field.lstrip("=")}"' in declared for field in units)


@pytest.mark.parametrize("units", [{}, MIXED_UNITS])
def test_forms_are_typed_filled_and_explained_alike(core, units):
    typed_out = [
        {
            "method": "show_inputs",
            "args": {"name": name, "given": briefly(name, case["input"]), "units": units, "currency": "EUR"},
        }
        for name, case in load_cases()
        if "output" in case and (not units or has_one_of(name, units))
    ]
    forms = on_the_phone(core, typed_out)
    assert exact(forms) == exact(here(typed_out))
    filled, asked = [], []
    for question, form in zip(typed_out, forms, strict=True):
        args = {**question["args"], "typed": form["answer"]}
        del args["given"]
        filled.append({"method": "fill", "args": args})
        calculator = calculators()[NAMES.index(args["name"])]
        asked += [
            {"method": "why", "args": {**args, "output": output.name}}
            for output in calculator.outputs
            if output.formula
        ]
    assert_all_alike(filled, on_the_phone(core, filled))
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


@pytest.mark.full
def test_typed_numbers_lengths_and_money_are_read_and_written_alike(core, how_many):
    random = Random(SEED)
    asked = []
    for _ in range(how_many(200, 4000)):
        unit, to = random.choice(UNITS), random.choice(UNITS)
        currency = random.choice(sorted(EXPONENTS))
        text = random_text(random)
        mm = (
            random.choice((1.0, 12.7, 0.1, 914.4))
            * random.randrange(0, 100000)
            / random.choice((1, 8, 7, 1000))
        )
        typed = {"strip_length": text, "strip_width": random_text(random), "quantity": random_text(random)}
        typed.update({"bolt_width": "140", "shrink_length": "3", "shrink_width": "2"})
        typed["price"] = random_text(random)
        fabric = {"name": "fabric-per-dozen", "units": {"strip_length": unit}, "currency": currency}
        given = {"strip_length": mm, "price": random.randrange(10**8)}
        asked += [
            {"method": "convert", "args": {"text": text, "unit": unit, "to": to}},
            {"method": "lengths_in_words", "args": {"lengths": [mm], "unit": to}},
            {"method": "fill", "args": {**fabric, "typed": typed}},
            {"method": "show_inputs", "args": {**fabric, "given": given}},
        ]
    assert exact(on_the_phone(core, asked)) == exact(here(asked))


def random_text(random):
    """Type a number as people do, now and then with a slip of the thumb."""
    whole = random.randrange(10 ** random.randrange(1, 5))
    return random.choice((
        str(whole), f"{whole}.{random.randrange(1000)}", f"{whole},{random.randrange(100):02}",
        f"{whole} {random.randrange(8)}/8", f"{random.randrange(9)}/{random.randrange(9)}", f" {whole} ",
        f"-{whole}", f"{whole}.", f".{whole}", "1e3", f"{whole} 5", "½", "", f"{whole}\u00a01/4", "12,5.0",
    ))  # fmt: skip


def random_basket(random, values):
    """Fill a basket, now and then with more offers of a group than can be used together."""

    def line(number):
        group = random.choice(("Everyday", "Grand", None))
        price, quantity = random.randrange(2000), random.randrange(1, 5)
        return {"product": f"p{number}", "group": group, "unit_price": price, "quantity": quantity}

    offers = [
        {"name": f"{n} for less", "groups": ["Everyday"], "n": n, "price": 900 * n}
        for n in range(2, random.randrange(3, 8))
    ]
    lines = [line(number) for number in range(random.randrange(1, 7))]
    return {
        "basket": {"lines": lines, "offers": offers, "basket_off": random.choice((0, 150))},
        "returned": [line("back")] if random.randrange(2) else [],
        "cash_rounding": random.choice((1, 5)),
        "denominations": values,
    }


def test_money_at_the_stall_is_worked_out_alike(core):
    random = Random(SEED)
    asked = []
    for _ in range(100):
        values = random.sample(range(1, 5000), random.randrange(8))
        asked.append({"method": "price", "args": random_basket(random, values)})
        typed = {"text": random_text(random), "currency": random.choice(sorted(EXPONENTS))}
        asked.append({"method": "read_money", "args": typed})
        lines = [{"quantity": random.randrange(1, 9), "total": random.randrange(9999)} for _ in range(3)]
        back = [random.randrange(10) for _ in lines]
        asked.append({"method": "refund_of", "args": {"lines": lines, "back": back, "amount": 5000}})
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert sum("answer" in reply for reply in told) > 200


def test_counts_come_out_alike(core):
    random = Random(SEED)
    asked = []
    for _ in range(60):
        facts, count = history(random), {"session": random.choice(SESSIONS), "place": "stall"}
        close = random.choice(({}, {"scope": "all"}, {"scope": "list", "listed": [{"product": "G"}]}))
        given = {"facts": facts, **count, "close": close, "products": {"E": {"size": "E", "price": 600}}}
        asked.append({"method": "count_result", "args": given})
        asked.append({"method": "count_so_far", "args": {"facts": facts, **count}})
        asked.append({"method": "needed_since", "args": {"facts": facts, **count, "at": 5}})
        packing = {"facts": [{**fact, "day": "2026-11-28"} for fact in facts]}
        asked.append({"method": "last_packing", "args": {**packing, "source": "home", "target": "stall"}})
    turns = ("opening", "3", "noon")
    asked += [{"method": "count_name", "args": {"place": "p", "day": "d", "which": turn}} for turn in turns]
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert sum("answer" in reply for reply in told) == len(asked) - 1


def test_a_days_report_and_its_cash_boxes_are_made_alike(core):
    asked = []
    for seed in range(40):
        facts = facts_of_a_day(seed)
        voids = {fact["sale"]: True for fact in facts if fact["kind"] == "void"}
        day = {"facts": facts, "voids": voids, "day": DAY}
        boxes = [{"box": box, "usual_float": 4000} for box in BOXES if box]
        left = [{"place": "quay stall", "product": "grand", "size": None, "quantity": seed}]
        reported = {"booking": "quay", "stall": None, "hours": HOURS, "stock": left, "boxes": boxes}
        asked.append({"method": "days_taken", "args": {"facts": facts, "voids": voids}})
        reported |= day | {"names": {"quay": "=Quay, old", "grand": "Grand"}}
        asked.append({"method": "told_day", "args": reported})
        asked.append({"method": "report_csv", "args": reported | {"currency": "EUR"}})
        counted = [{"value": 200, "count": seed}]
        asked.append(
            {"method": "cash_up_of", "args": day | boxes[0] | {"counted": None if seed % 2 else counted}}
        )
        asked.append({"method": "denominations_of", "args": {"denominations": [5, seed + 1, 200]}})
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert all("answer" in reply for reply in told)


def test_what_markets_and_a_year_came_to_is_worked_out_alike(core):
    facts, records = of_the_year()
    goods = [{"method": "goods_costs", "args": {"facts": facts, "records": records}}]
    voids = {fact["sale"]: True for fact in facts if fact["kind"] == "void"}
    taken = [fact for fact in facts if fact["kind"] in ("sale", "refund")]
    days = sorted({fact["day"] for fact in taken})
    summed = [
        {"method": "day_sums", "args": {"facts": [one for one in taken if one["day"] == day], "voids": voids}}
        for day in days
    ]
    told = on_the_phone(core, goods + summed)
    assert exact(told) == exact(here(goods + summed))
    sums = [row for reply in told[1:] for row in reply["answer"]]
    booked = {"records": records, "sums": sums, "costs": told[0]["answer"]["goods"], "day": "2026-01-01"}
    booked["facts"] = [
        one for one in facts if one["kind"] in ("expense", "work-time", "wage-set", "purchase")
    ]
    asked = [{"method": "year_told", "args": booked | {"year": "2025"}}]
    filed = booked | {"year": "2025", "stock": [], "at": 0, "currency": "EUR"}
    asked += [{"method": "year_file", "args": filed | {"file": file}} for file in FILES]
    told = on_the_phone(core, asked)
    assert exact(told) == exact(here(asked))
    assert told[0]["answer"]["total"]["takings"] > 3_000_000
    # an interval comes of Student's t, which each runtime rounds in its way
    asked = [{"method": "markets_told", "args": booked}]
    phone, cpython = on_the_phone(core, asked)[0]["answer"], here(asked)[0]["answer"]
    for one, other in zip(phone["markets"], cpython["markets"], strict=True):
        for name in ("low", "high", "next_low", "next_high", "chance"):
            assert one.pop(name) == pytest.approx(other.pop(name), rel=1e-12)
        # of one booking alone there is none
        chances = [market["break_even"].pop("chance") or 0 for market in (one, other)]
        assert chances[0] == pytest.approx(chances[1], rel=1e-12)
    assert exact(phone) == exact(cpython)


def of_the_year():
    """The facts and records of the demo's year 2025."""
    changes = [change for _, _, made in evenings(BUSINESS, date(2026, 1, 1)) for change in made]
    facts = [one["fields"] | {name: one[name] for name in ("kind", "id", "at")} for one in changes
             if "record" not in one]  # fmt: skip
    records = {}
    for one in changes:
        if "record" in one:
            of_kind = records.setdefault(one["kind"], {})
            of_kind[one["record"]] = of_kind.get(one["record"], {}) | one["fields"]
    return facts, records


def test_records_are_checked_and_merged_alike(core):
    lawn = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
    lawn["price"] = 890
    edits = [
        {"kind": "cloth", "record": f"r{number % 3}", "stamp": f"{stamp:013}-0000-a", "fields": fields}
        for number, (stamp, fields) in enumerate(
            [(3, lawn), (1, {"price": 900}), (2, {"price": None}), (2, {"price": 5}), (9, {"mixed": True})]
        )
    ]
    asked = [
        {"method": "check", "args": {"kind_name": "cloth", "fields": lawn, "new": True}},
        {
            "method": "check",
            "args": {"kind_name": "cloth", "fields": {"bolt_width": -1, "x": 1}, "new": False},
        },
        {"method": "check", "args": {"kind_name": "no such kind", "fields": {}, "new": True}},
        {"method": "fold", "args": {"changes": edits}},
        {"method": "fold", "args": {"changes": edits[::-1]}},
        {"method": "merge", "args": {"held": {"cloth/r0": {"price": [1, "0"]}}, "changes": edits}},
        *({"method": "convert", "args": {"text": text, "unit": "mm", "to": unit}}
          for text in ("450.6666", "46,2", "18 1/8", "x") for unit in ("cm", "in", "yd")),
    ]  # fmt: skip
    assert exact(on_the_phone(core, asked)) == exact(here(asked))
