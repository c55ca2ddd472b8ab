"""What a remnant could give, without a signal: the dearest mix, its proof; cut by it, and undone."""

import json

import pytest
from playwright.sync_api import expect

from backend.core.catalogue import answer

from .cuts import make_all_cuts, tick_after
from .cutting_table import BASKET, CORD, LAWN, begin_layout, furnish, plan_of, sign, want
from .scenario import SIZES
from .shop import act, ask, exchange
from .test_cutting import check_drawn

PRICES = {"Petite": 450, "Everyday": 600, "Grand": 900}
BRAID = {"name": "Braided, 6 mm", "roll_length": 50000, "price": 790, "knot_takeup": 31}
REST = {"name": "Lawn, under the table", "width": 620, "length": 400}
FOUND = (
    "import('/data/store/remembered.js').then(({ recall }) => JSON.stringify(recall('remnant-mix-found')))"
)
CUT = "import('/data/remnant-mix.js').then(({ remnantCutting }) => JSON.stringify(remnantCutting()))"
PROVEN = "[data-proven=true][data-looking=false]"


@pytest.fixture
def ground():
    return furnish


@pytest.fixture
def table(screen):
    """A phone without a signal that knows sizes, two cloths and a remnant, and no price."""
    return screen


@pytest.fixture
def priced(table, phone):
    """The same with a price for each size, and an elastic."""
    price_all(phone)
    act(phone, "describeNew", "elastic", BRAID)
    return table


def price_all(phone):
    for name, id in named(phone, "piece").items():
        act(phone, "describeNew", "product", {"size": id, "price": PRICES[name], "group": name})


def named(phone, kind):
    return {record["name"]: record["id"] for record in ask(phone, "records", "records", kind)}


def found(phone):
    # too deep to be handed over as it is
    return json.loads(phone.screen.page.evaluate(FOUND))


def being_cut(phone):
    return json.loads(phone.screen.page.evaluate(CUT))


def open_mix(screen):
    page = screen.open("/make").page
    page.locator("[data-remnant]").tap()
    screen.wait_for_title("What this remnant could give")
    return page


def proven(page, worth):
    """Wait until so much is proven to be the most."""
    expect(page.locator(f"{PROVEN}[data-worth='{worth}'][data-bound='{worth}']")).to_be_visible()


def strips_of(phone):
    """Count the strips that lie on the remnant, by size."""
    counts = {}
    for row in found(phone)["laid"]["rows"]:
        for strip in row["strips"]:
            counts[strip["name"]] = counts.get(strip["name"], 0) + 1
    return counts


def waiting(phone):
    sizes = {id: name for name, id in named(phone, "piece").items()}
    return {sizes[row["size"]]: row["quantity"] for row in ask(phone, "cuts", "stripsWaiting")}


def one_line(*sizes, **more):
    """Ask the core what 900 × 700 mm gives of (name, worth, most)."""
    asked = []
    for name, worth, most in sizes:
        size = SIZES[name]
        length, width = size["loop"] * size["fullness"] + 20, 2 * size["tube_width"] + 20
        asked.append({"name": name, "length": length, "width": width, "value": worth, "quantity": most})
    given = {"width": BASKET["width"], "length": BASKET["length"], "sizes": asked, **more}
    return answer("remnant-best-mix", given)["result"]


# 165 + 31 + 2 × 20 = 236 of 50,000 mm at 7.90 is 3.7 c, and so on: 3, 4 and 4
WORTHS = (("Petite", 447, None), ("Everyday", 596, None), ("Grand", 896, None))


def test_the_dearest_mix_is_drawn_with_its_value_and_proof(priced, phone):
    page = open_mix(priced)
    best = one_line(*WORTHS)
    proven(page, f"{best['value']:.0f}")
    verdict = page.locator(".verdict")
    expect(verdict).to_contain_text(f"{best['pieces']} strips, worth")
    expect(verdict).to_contain_text(f"€{best['value'] / 100:.2f}")
    expect(verdict).to_contain_text("Proven: no other mix is worth more.")
    told = found(phone)
    assert told["result"]["placed"] == best["pieces"] == sum(strips_of(phone).values())
    check_drawn(page.locator("section.make-laid"), told["laid"])
    expect(page.locator("[data-size=Everyday]")).to_contain_text("€6.00 less €0.04 elastic")
    expect(page.locator(".mix-sizes > .hint")).to_contain_text("Thread, packaging and time are not counted.")
    page.locator(".make-laid summary").tap()
    expect(page.locator("ol.cuts li")).to_have_count(len(told["laid"]["cuts"]))


def test_worths_and_limits_change_the_mix_and_are_there_after_a_kill(priced, phone):
    page = open_mix(priced)
    page.get_by_label("Worth of one Grand").fill("20")
    proven(page, f"{one_line(*WORTHS[:2], ('Grand', 2000, None))['value']:.0f}")
    assert "Grand" in strips_of(phone)
    page.select_option("#mix-many", "typed")
    page.get_by_label("Grand at most", exact=True).fill("2")
    proven(page, f"{one_line(*WORTHS[:2], ('Grand', 2000, 2))['value']:.0f}")
    assert strips_of(phone)["Grand"] == 2
    page.locator("[data-size=Petite] .tick input").uncheck()
    worth = f"{one_line(WORTHS[1], ('Grand', 2000, 2))['value']:.0f}"
    proven(page, worth)
    priced.settle()
    phone.kill()
    page = phone.switch_on(offline=True).open("/make/remnant").page
    proven(page, worth)
    expect(page.get_by_label("Worth of one Grand")).to_have_value("20")
    expect(page.get_by_label("Grand at most", exact=True)).to_have_value("2")
    # a slip of the thumb is said beside it, and what follows from the price holds meanwhile
    page.get_by_label("Worth of one Everyday").fill("x")
    expect(page.locator("[data-size=Everyday] .problem")).to_have_text("must be a number")
    proven(page, worth)


def test_cut_by_it_recorded_and_undone(priced, phone):
    page = open_mix(priced)
    page.select_option("#mix-many", "typed")
    for name, most in (("Everyday", 3), ("Petite", 2), ("Grand", 0)):
        page.get_by_label(f"{name} at most", exact=True).fill(str(most))
    proven(page, f"{3 * 596 + 2 * 447}")
    page.locator("[data-cut]").tap()
    sign(priced)
    cuts = being_cut(phone)["layout"]["result"]["cloths"][0]["cuts"]
    for number, cut in enumerate(cuts):
        expect(page.locator("h1")).to_have_text(f"Cut {number + 1} of {len(cuts)}")
        setting = page.locator("[data-setting]")
        assert float(setting.get_attribute("data-setting")) == cut["setting"]
        expect(page.locator(".caution").first).to_contain_text("lay down the blade before touching the phone")
        expect(page.locator("rect.marked")).to_have_count(len(cut["pieces"]))
        if number == 1:
            priced.settle()
            phone.kill()
            page = phone.switch_on(offline=True).open("/make").page
            expect(page.locator("[data-remnant-cutting]")).to_have_text(
                f"{BASKET['name']}: Go on with cut 2 of {len(cuts)}"
            )
            page.locator("[data-remnant-cutting]").tap()
            expect(page.locator("h1")).to_have_text(f"Cut 2 of {len(cuts)}")
        page.locator("[data-next]").tap()
    expect(page.locator("h1")).to_have_text("All cut")
    # what is left over is one large piece, and is kept; the others that a strip fits on are not wanted
    offcuts = page.locator("[data-offcut] input")
    expect(offcuts.first).to_be_checked()
    for other in offcuts.all()[1:]:
        other.uncheck()
    tick_after(page)
    kept = being_cut(phone)["layout"]["result"]["cloths"][0]["offcuts"][0]
    page.locator("[data-record]").dblclick()
    expect(page.locator("[data-waiting]")).to_have_count(2)
    assert waiting(phone) == {"Everyday": 3, "Petite": 2}
    [offcut] = ask(phone, "records", "records", "remnant")
    assert offcut["name"] != BASKET["name"]
    assert (offcut["width"], offcut["length"]) == (kept["width"], kept["length"])
    [fact] = ask(phone, "facts", "factsOf", "cut")
    assert fact["offcuts"] == [offcut["id"]]
    expect(page.locator("[data-remnant-cutting]")).to_have_count(0)
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator("[data-waiting]")).to_have_count(0)
    assert list(named(phone, "remnant")) == [BASKET["name"]]
    page.locator("[data-remnant-cutting]").tap()
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_count(2)
    # and it is taken back later, as any cut
    page = phone.screen.open("/make/cuts").page
    page.locator("[data-cut] a").first.tap()
    page.locator("[data-take-back]").tap()
    expect(page.locator("[data-taken-back]")).to_be_visible()
    assert waiting(phone) == {} and list(named(phone, "remnant")) == [BASKET["name"]]


def test_what_the_plan_still_wants_is_cut_and_the_plan_stays(priced, phone):
    page = want(priced, ("Everyday", LAWN, 1), ("Grand", CORD, 1))
    page.locator("[data-wanted] input").first.fill("5")
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    wanted = plan_of(phone)["wanted"]
    page = open_mix(priced)
    proven(page, str(5 * 596))
    expect(page.locator("#mix-many")).to_have_value("wanted")
    expect(page.locator("[data-size=Everyday]")).to_contain_text("at most 5, as planned")
    page.locator("[data-cut]").tap()
    sign(priced)
    make_all_cuts(page)
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "5")
    # the plan is there as it was, but for its layout on a remnant that is gone
    assert (plan_of(phone)["wanted"], plan_of(phone)["layout"]) == (wanted, None)
    lawn = named(phone, "cloth")[LAWN]
    act(phone, "describeNew", "remnant", REST | {"cloth": lawn})
    page = open_mix(priced)
    expect(page.locator("[data-nothing]")).to_contain_text("strips that wait are enough")
    expect(page.locator("[data-size=Everyday]")).to_contain_text("5 planned, 5 waiting: at most 0")
    page.select_option("#mix-many", "fit")
    expect(page.locator(PROVEN)).to_be_visible()


def test_another_remnant_is_chosen_there_or_by_its_record(priced, phone):
    ids = named(phone, "cloth")
    rest = act(phone, "describeNew", "remnant", REST | {"cloth": ids[LAWN]})
    cord = act(phone, "describeNew", "remnant", {**REST, "name": "Cord end", "cloth": ids[CORD]})
    page = open_mix(priced)
    expect(page.locator("#mix-remnant option:checked")).to_have_text(BASKET["name"])
    expect(page.locator(PROVEN)).to_be_visible()
    both = strips_of(phone)
    page.select_option("#mix-remnant", rest)
    expect(page.locator(".make-mix-of")).to_have_text("Seagrass lawn, 62 cm wide and 40 cm long")
    expect(page.locator(PROVEN)).to_be_visible()
    assert found(phone)["remnant"] == rest and strips_of(phone) != both
    # cord has a nap: its strips lie one way, until she says otherwise
    page = priced.open(f"/settings/remnant/{cord}").page
    page.get_by_role("link", name="What it could give").tap()
    expect(page.locator("#mix-remnant")).to_have_value(cord)
    expect(page.locator("#mix-lying")).to_have_value("across")
    for lying, turned in (("across", False), ("along", True)):
        page.select_option("#mix-lying", lying)
        expect(
            page.locator(f"path.strip{'[data-turned]' if turned else ':not([data-turned])'}").first
        ).to_be_visible()
        expect(
            page.locator(f"path.strip{':not([data-turned])' if turned else '[data-turned]'}")
        ).to_have_count(0)
        expect(page.locator("path.nap")).to_have_count(1)


def test_without_a_price_cloth_is_used_up_and_one_price_asks_for_the_others(table, phone):
    page = open_mix(table)
    expect(page.locator(PROVEN)).to_be_visible()
    expect(page.locator("#mix-measure")).to_have_value("area")
    expect(page.locator(".verdict")).to_contain_text("Proven: no other mix uses more of the remnant.")
    expect(page.locator(".mix-sizes > .hint")).to_contain_text("A strip is worth its area")
    page.select_option("#mix-measure", "money")
    expect(page.locator("[data-nothing]")).to_have_text("Say below what one of a size is worth.")
    expect(page.locator("[data-cut]")).to_be_disabled()
    page.get_by_label("Worth of one Everyday").fill("6")
    expect(page.locator(PROVEN)).to_be_visible()
    assert list(strips_of(phone)) == ["Everyday"]
    page.select_option("#mix-measure", "strips")
    most = one_line(*((name, 1, None) for name, _, _ in WORTHS))["value"]
    proven(page, f"{most:.0f}")
    expect(page.locator(".verdict")).to_contain_text(f"{most:.0f} strips")


@pytest.mark.parametrize("ground", [None])
def test_where_no_remnant_is_saved_it_says_how_to(screen):
    page = open_mix(screen)
    expect(page.locator(".lead")).to_contain_text("No remnant is saved yet.")
    page.get_by_role("link", name="Measure a remnant").tap()
    screen.wait_for_title("A remnant")


def test_a_long_search_is_stopped_and_its_best_so_far_is_cut(table, phone):
    lawn = named(phone, "cloth")[LAWN]
    act(
        phone,
        "describeNew",
        "remnant",
        {"name": "Long end", "cloth": lawn, "width": 1389, "length": 1777, "use_first": True},
    )
    worths, limits = {}, {}
    for number in range(9):
        size = {
            **SIZES["Everyday"],
            "name": f"Odd {number}",
            "loop": 121 + 13 * number,
            "tube_width": 31 + 5 * number,
        }
        id = act(phone, "describeNew", "piece", size)
        amount = 311 + 97 * number
        worths[id], limits[id] = {"text": str(amount), "amount": amount, "problem": ""}, 6 + number % 3
    chosen = {"measure": "money", "many": "typed", "worths": worths, "quantities": limits}
    there = ask(phone, "remnant-mix", "mixChoices")
    ask(phone, "remnant-mix", "keepMixChoices", {**there, **chosen})
    page = open_mix(table)
    page.locator("[data-looking=true]").wait_for()
    # another question gets through meanwhile
    assert table.ask_core("convert", {"text": "10", "unit": "cm", "to": "mm"})["answer"] == "100"
    page.locator("[data-stop]").tap()
    verdict = page.locator("[data-looking=false]")
    expect(verdict).to_contain_text("more could be found.")
    worth, bound = [float(verdict.get_attribute(name)) for name in ("data-worth", "data-bound")]
    assert 0 < worth < bound
    # what was kept is there again, and is not looked for anew
    table.reload()
    expect(page.locator(f"[data-looking=false][data-worth='{worth:.0f}']")).to_be_visible()
    expect(page.locator("[data-cut]")).to_be_enabled()


def test_a_helper_sees_no_elastic_price_and_is_told_so(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    furnish(imke)
    price_all(imke)
    act(imke, "describeNew", "elastic", BRAID)
    exchange(imke, joss)
    joss.expected.append("ERR_INTERNET_DISCONNECTED")
    joss.context.set_offline(True)
    page = open_mix(joss.screen)
    best = one_line(*((name, PRICES[name], None) for name in ("Petite", "Everyday", "Grand")))
    proven(page, f"{best['value']:.0f}")
    expect(page.locator("[data-size=Everyday]")).to_contain_text("price €6.00")
    expect(page.locator(".mix-sizes > .hint")).to_contain_text(
        "Elastic, thread, packaging and time are not counted."
    )
