"""Buying and the checklist, on a phone whose network is off and whose server is dead."""

import re

import pytest
from playwright.sync_api import expect

from .scenario import CLOTHS_TYPED, CLOTHS_UNITS, SIZES_TYPED, cloth_given, size_given
from .server import Server

SCREENS = {
    "/buy": "Buy",
    "/buy/list": "Shopping list",
    "/buy/pieces": "Sizes",
    "/buy/cloths": "Cloths",
    "/buy/strip-length": "Strip",
    "/buy/elastic-cut-length": "Elastic",
    "/buy/fabric-per-dozen": "Cloth to buy",
    "/buy/cloth-compare": "Which cloth",
    "/buy/remnant-yield": "Remnant",
    "/make": "Make",
    "/make/safe-cutting-checklist": "Safe cutting and sewing",
    "/settings": "Settings",
    "/nowhere": "No such screen",
    "/buy/nothing-of-the-kind": "No such screen",
    "/make/signed/nobody": "No such screen",
}

EVERYDAY_STRIP = {"strip_length": 482, "strip_width": 110}

# each calculator's form: what is typed, and the same in base units
FORMS = {
    "strip-length": (
        {**SIZES_TYPED["Grand"], "end_seam": "12", "stretch_cloth": True, "usable_width": "135.2"},
        {"loop": 180, "fullness": 3.2, "tube_width": 60, "end_seam": 12, "stretch_cloth": True,
         "usable_width": 1352},
    ),
    "elastic-cut-length": (
        {"loop": "165", "tail": "22.5", "strands": "3", "roll_length": "50", "wraps": "3",
         "bundle_diameter": "25"},
        {"loop": 165, "tail": 22.5, "strands": 3, "roll_length": 50000, "wraps": 3, "bundle_diameter": 25},
    ),
    "fabric-per-dozen": (
        {"strip_length": "482", "strip_width": "110", "quantity": "60", **CLOTHS_TYPED["Seagrass lawn"]},
        {**EVERYDAY_STRIP, "quantity": 60, **cloth_given("Seagrass lawn")},
    ),
    "cloth-compare": (
        {"strip_length": "596", "strip_width": "140", "quantity": "24",
         "cloths.0.name": "lawn", "cloths.0.bolt_width": "140", "cloths.0.shrink_length": "3",
         "cloths.0.shrink_width": "2", "cloths.0.price": "8,90",
         "cloths.1.name": "check", "cloths.1.bolt_width": "150", "cloths.1.shrink_length": "4",
         "cloths.1.shrink_width": "3", "cloths.1.price": "7"},
        {"strip_length": 596, "strip_width": 140, "quantity": 24, "cloths": [
            {"name": "lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2, "price": 890,
             "price_length": 1000},
            {"name": "check", "bolt_width": 1500, "shrink_length": 4, "shrink_width": 3, "price": 700,
             "price_length": 1000},
        ]},
    ),
    "remnant-yield": (
        {"width": "61,5", "length": "100", "strip_length": "482", "strip_width": "110", "nap": True},
        {"width": 615, "length": 1000, **EVERYDAY_STRIP, "nap": True},
    ),
    "safe-cutting-checklist": (
        {"tool": "rotary cutter", "cloth": "gauze", "layers": "12", "children_near": True,
         "blade_cuts": "5000"},
        {"tool": "rotary cutter", "cloth": "gauze", "layers": 12, "children_near": True, "blade_cuts": 5000},
    ),
}  # fmt: skip


def address_of(calculator):
    place = "make" if calculator == "safe-cutting-checklist" else "buy"
    return f"/{place}/{calculator}"


def test_one_visit_is_enough_for_ever_after(new_phone, tmp_path):
    with Server(tmp_path / "data") as server:
        screen = new_phone(server.address).switch_on().open("/buy/strip-length")
        screen.wait_until_ready_offline()
        server.stop()
        screen.reload()
        screen.fill(SIZES_TYPED["Grand"])
        screen.answers("strip-length", size_given("Grand"))


def test_nobody_but_its_own_server_is_ever_asked(new_phone, server):
    phone = new_phone(server.address)
    phone.switch_on()
    asked = []
    phone.context.on("request", lambda request: asked.append(request.url))
    phone.screen.open("/buy").wait_until_ready_offline()
    phone.screen.start_at("/settings").start_at("/buy/strip-length").answers("strip-length", {})
    assert [url for url in asked if not url.startswith((server.address + "/", "blob:", "data:"))] == []
    assert len(asked) > 50


def test_every_screen_opens_at_its_own_address(screen):
    for path, title in SCREENS.items():
        screen.start_at(path)
        screen.wait_for_title(title)
        assert screen.page.evaluate("location.pathname") == path


def test_it_opens_where_it_was_left(phone):
    page = phone.screen.open("/buy/remnant-yield").page
    page.wait_for_function("() => localStorage.getItem('last-screen') === '/buy/remnant-yield'")
    phone.screen.settle()
    phone.switch_off()
    phone.switch_on(offline=True).open("/").wait_for_title("Remnant")


@pytest.mark.parametrize("calculator", FORMS)
def test_a_calculator_is_used_by_keyboard_alone(screen, calculator):
    texts, values = FORMS[calculator]
    screen.open(address_of(calculator))
    screen.key_in(texts)
    screen.answers(calculator, values)


@pytest.mark.parametrize("calculator", FORMS)
def test_a_calculator_is_used_by_touch(screen, calculator):
    texts, values = FORMS[calculator]
    screen.open(address_of(calculator))
    screen.touch_in(texts)
    screen.answers(calculator, values)


def test_each_field_has_a_unit_of_its_own(screen):
    screen.open("/buy/fabric-per-dozen")
    entries = {
        # path: (unit, typed, mm by the exact inch of 25.4 mm and yard of 914.4 mm, NIST SP 811 App. B)
        "strip_length": ("in", "18 1/8", 460.375),
        "strip_width": ("cm", "11,4", 114),
        "bolt_width": ("in", "54", 1371.6),
        "selvedge": ("mm", "9.5", 9.5),
        "squaring": ("m", "0.05", 50),
        "shop_increment": ("yd", "1/8", 114.3),
    }
    for path, (unit, text, _) in entries.items():
        screen.unit_of(path).select_option(unit)
        screen.fill({path: text})
        expect(screen.field(path)).to_have_attribute("data-unit", unit)
    screen.fill({"shrink_length": "3", "shrink_width": "0"})
    values = {path: mm for path, (_, _, mm) in entries.items()}
    screen.answers("fabric-per-dozen", {**values, "shrink_length": 3, "shrink_width": 0})


def test_a_changed_unit_keeps_the_amount(screen):
    screen.open("/buy/strip-length")
    screen.fill({"loop": "457.2"})
    for unit, text, mm in [
        ("cm", "45.72", 457.2),
        ("in", "18", 457.2),
        ("yd", "1/2", 457.2),
        ("m", "0.457", 457.2),
    ]:
        screen.unit_of("loop").select_option(unit)
        expect(screen.field("loop")).to_have_value(text)
        screen.answers("strip-length", {"loop": mm})


def test_a_length_in_another_unit_and_back_is_what_it_was(screen):
    screen.open("/buy/strip-length").fill({"loop": "165", "usable_width": "139.9"})
    values = {"loop": 165, "usable_width": 1399}
    # a size to the nearest eighth; what strips must fit into never longer than it is
    for path, unit, text in [
        ("loop", "in", "6 1/2"),
        ("usable_width", "in", "55"),
        ("loop", "yd", "0.1804"),
        ("loop", "mm", "165"),
    ]:
        screen.unit_of(path).select_option(unit)
        expect(screen.field(path)).to_have_value(text)
        screen.answers("strip-length", values)
    screen.reload()
    expect(screen.field("usable_width")).to_have_value("55")
    screen.answers("strip-length", values)
    screen.fill({"usable_width": "55 "})
    screen.answers("strip-length", {**values, "usable_width": 55 * 25.4})


def test_a_form_left_in_one_unit_is_not_read_in_another(screen):
    screen.start_at("/buy/strip-length").fill({"loop": "170"})
    screen.answers("strip-length", {"loop": 170})
    screen.start_at("/settings").choose("measure", "inch")
    screen.start_at("/buy/strip-length").answers("strip-length", {"loop": 170})


def test_a_fraction_is_typed_as_people_write_it(screen):
    screen.open("/buy/strip-length").unit_of("loop").select_option("in")
    for text, inches in [("½", 0.5), ("6½", 6.5), ("18-1/8", 18.125), ("18 1/8", 18.125), ("18 1⁄8", 18.125),
                         ("6,25", 6.25), ("6.125", 6.125)]:  # fmt: skip
        screen.fill({"loop": text})
        screen.answers("strip-length", {"loop": inches * 25.4})


@pytest.mark.parametrize("unit, mm", [("in", 25.4), ("yd", 914.4)])
def test_an_eighth_is_typed_by_taps_beside_the_pad_for_digits(screen, unit, mm):
    screen.open("/buy/fabric-per-dozen").unit_of("bolt_width").select_option(unit)
    screen.fill({"strip_length": "200", "strip_width": "50", "shrink_length": "0", "shrink_width": "0"})
    field = screen.field("bolt_width")
    expect(field).to_have_attribute("inputmode", "decimal")
    more = screen.page.get_by_role("button", name="bolt width: an eighth more")
    expect(more).to_be_hidden()
    field.tap()
    field.fill("2")
    assert more.bounding_box()["height"] >= 48 and more.bounding_box()["width"] >= 48
    for text in ("2 1/8", "2 1/4", "2 3/8"):
        more.tap()
        expect(field).to_have_value(text)
    screen.page.get_by_role("button", name="bolt width: an eighth less").tap()
    expect(field).to_have_value("2 1/4")
    expect(field).to_be_focused()
    typed = {"name": "fabric-per-dozen", "typed": {"bolt_width": "2 1/4"}, "units": {"bolt_width": unit}}
    told = screen.ask_core("fill", {**typed, "currency": "EUR"})["answer"]
    assert told["input"]["bolt_width"] == 2.25 * mm
    if unit == "yd":
        values = {"strip_length": 200, "strip_width": 50, "shrink_length": 0, "shrink_width": 0}
        screen.answers("fabric-per-dozen", {**values, "bolt_width": 2.25 * mm})


@pytest.mark.parametrize(
    "acts, text",
    [
        (["more", "more", "more"], "2 3/8"),
        (["more", "7"], "7"),
        (["mm", "60"], "60"),
        # 2 in = 50.8 mm, in steps of a millimetre
        (["cm", "m"], "0.051"),
    ],
)
@pytest.mark.parametrize("path", ["/buy/strip-length", "/settings/piece/new"])
def test_no_tap_and_no_figure_is_lost_while_the_core_is_busy(screen, path, acts, text):
    page = screen.open(path).page
    field, unit = page.locator("[name=loop]"), screen.unit_of("loop")
    unit.select_option("in")
    expect(field).to_have_attribute("data-unit", "in")
    field.fill("2")
    with screen.core_held():
        for act in acts:
            if act == "more":
                field.focus()
                page.get_by_role("button", name="an eighth more").first.tap()
            elif act.isdigit():
                field.fill(act)
            else:
                unit.select_option(act)
    expect(field).to_have_value(text)
    # nor by what the core answered last
    screen.ask_core("next_eighth", {"text": "1", "up": True})
    assert field.input_value() == text


def test_new_fields_start_in_inches_where_she_says_so(screen):
    screen.open("/settings")
    screen.choose("measure", "inch")
    screen.open("/buy/strip-length")
    expect(screen.field("loop")).to_have_attribute("data-unit", "in")
    screen.fill({"loop": "6 1/2", "tube_width": "1 3/4", "end_seam": "3/8", "side_seam": "0,375"})
    seam = 0.375 * 25.4
    values = {"loop": 6.5 * 25.4, "tube_width": 1.75 * 25.4, "end_seam": seam, "side_seam": seam}
    screen.answers("strip-length", values)
    # 6 1/2 × 2.8 + 2 × 3/8 = 18.95, the nearest eighth below 19
    expect(screen.words_of("strip_length")).to_have_text("19 in")


@pytest.mark.parametrize(
    "currency, typed, minor, shown",
    # 2.6 m at the price of a metre; exponents by ISO 4217
    [("EUR", "8.90", 890, "€23.14"), ("JPY", "1200", 1200, "JP¥3,120"), ("KWD", "2.755", 2755, "KWD 7.163")],
)
def test_money_is_counted_in_the_chosen_currency(screen, currency, typed, minor, shown):
    screen.open("/settings")
    screen.choose("currency", currency)
    texts, values = FORMS["fabric-per-dozen"]
    screen.open("/buy/fabric-per-dozen")
    screen.fill({**texts, "price": typed})
    screen.answers("fabric-per-dozen", {**values, "price": minor})
    expect(screen.words_of("cost")).to_have_text(shown)


def test_a_price_has_no_more_decimals_than_its_currency(screen):
    screen.open("/settings")
    screen.choose("currency", "JPY")
    screen.open("/buy/fabric-per-dozen")
    screen.fill({"price": "8.90"})
    expect(screen.problem_at("price")).to_have_text("may have at most 0 decimals in this currency")


def test_bad_input_is_told_beside_its_field_in_the_unit_shown_and_stays(screen):
    screen.open("/buy/strip-length")
    screen.unit_of("loop").select_option("cm")
    screen.fill({"loop": "0,5", "fullness": "9", "tube_width": "wide"})
    expect(screen.problem_at("loop")).to_have_text("must be at least 1 cm; 0.5 cm given")
    expect(screen.problem_at("fullness")).to_have_text("must be at most 8 ×; 9 × given")
    expect(screen.problem_at("tube_width")).to_have_text("must be a number")
    screen.shows({"strip_length": None, "strip_width": None, "opens_to": None})
    for path, text in {"loop": "0,5", "fullness": "9", "tube_width": "wide"}.items():
        expect(screen.field(path)).to_have_value(text)
        expect(screen.field(path)).to_have_attribute("aria-invalid", "true")
        problem = screen.problem_at(path).get_attribute("id")
        assert problem in screen.field(path).get_attribute("aria-describedby").split()
    screen.fill({"loop": "16.5", "fullness": "2.8", "tube_width": "45"})
    screen.answers("strip-length", {})
    expect(screen.page.locator(".problem")).to_have_count(0)


def test_an_empty_field_that_is_needed_only_waits(screen):
    screen.open("/buy/elastic-cut-length")
    expect(screen.field("loop")).to_have_value("")
    screen.shows({"cut_length": None, "knot_takeup": None})
    expect(screen.page.locator(".problem, [aria-invalid], [role=alert]")).to_have_count(0)
    expect(screen.step("list")).to_be_disabled()
    screen.fill({"loop": "165"})
    screen.answers("elastic-cut-length", {"loop": 165})
    screen.fill({"loop": ""})
    screen.shows({"cut_length": None})
    expect(screen.page.locator(".problem, [aria-invalid], [role=alert]")).to_have_count(0)


def test_a_strip_that_fits_neither_way_says_by_how_much(screen):
    screen.open("/buy/fabric-per-dozen")
    texts, _ = FORMS["fabric-per-dozen"]
    screen.fill({**texts, "strip_length": "1500", "strip_width": "1400"})
    # 1400 × 0.98 − 2 × 10 = 1352: the strip's width of 1400 is 48 too long
    wording = "the strip is 4.8 cm too long for the usable width of 135.2 cm, both ways"
    expect(screen.problem_at("bolt_width")).to_have_text(wording)


def test_one_tap_leads_from_each_step_to_the_next(screen):
    screen.open("/buy").page.locator("a[href='/buy/strip-length']").tap()
    screen.wait_for_title("Strip")
    screen.touch_in(SIZES_TYPED["Everyday"])
    screen.answers("strip-length", size_given("Everyday"))
    screen.step("elastic-cut-length").tap()
    screen.wait_for_title("Elastic")
    screen.answers("elastic-cut-length", {"loop": 165, "stretch_limit": 100})
    screen.step("fabric-per-dozen").tap()
    screen.wait_for_title("Cloth to buy")
    screen.touch_in({"quantity": "60", **CLOTHS_TYPED["Seagrass lawn"]})
    screen.answers("fabric-per-dozen", {**EVERYDAY_STRIP, "quantity": 60, **cloth_given("Seagrass lawn")})
    screen.step("cloth-compare").tap()
    screen.wait_for_title("Which cloth")
    cloths = [{"name": "cloth 1", **cloth_given("Seagrass lawn")}]
    screen.answers("cloth-compare", {**EVERYDAY_STRIP, "quantity": 60, "cloths": cloths})
    screen.page.get_by_role("button", name="Put on the list").tap()
    screen.wait_for_title("Shopping list")
    screen.said("On the list")
    expect(screen.page.locator("[data-line]")).to_have_count(1)


def test_the_strip_goes_along_to_a_remnant_and_back(screen):
    screen.open("/buy/strip-length")
    screen.fill(SIZES_TYPED["Grand"])
    screen.step("remnant-yield").tap()
    screen.wait_for_title("Remnant")
    screen.fill({"width": "60", "length": "100"})
    screen.answers("remnant-yield", {"width": 600, "length": 1000, "strip_length": 596, "strip_width": 140})
    screen.step("fabric-per-dozen").tap()
    screen.wait_for_title("Cloth to buy")
    expect(screen.field("strip_length")).to_have_value("596")
    expect(screen.field("strip_width")).to_have_value("140")


def test_a_strip_that_wastes_no_width_goes_along_with_one_tap(screen):
    screen.open("/buy/strip-length")
    screen.fill({**SIZES_TYPED["Everyday"], "usable_width": "135.2"})
    fits = screen.answers("strip-length", {"usable_width": 1352})["result"]["fits"]
    assert [fit["per_row"] for fit in fits] == [3, 4]
    screen.page.locator("[data-output=fits]").get_by_role("button").first.tap()
    screen.wait_for_title("Cloth to buy")
    screen.fill(CLOTHS_TYPED["Seagrass lawn"] | {"quantity": "12"})
    # 1352 / 3 = 450.667: the value itself goes along, so that three still fit
    expect(screen.field("strip_length")).to_have_value("450.7")
    screen.fill({"mixed": False})
    cloth = cloth_given("Seagrass lawn") | {"mixed": False}
    told = screen.answers("fabric-per-dozen", {"strip_length": 1352 / 3, "strip_width": 110, **cloth})
    assert told["result"]["per_row"] == 3


def test_a_step_taken_while_typing_takes_what_is_typed(screen):
    texts, _ = FORMS["fabric-per-dozen"]
    screen.open("/buy/fabric-per-dozen")
    screen.fill(texts)
    expect(screen.step("list")).to_be_enabled()
    # in one task, so that no answer can come between
    screen.field("price").evaluate("""(price) => {
      price.value = '9.90';
      price.dispatchEvent(new Event('input', { bubbles: true }));
      document.querySelector('[data-step=list]').click();
    }""")
    screen.wait_for_title("Shopping list")
    # 2.6 m × 9.90
    expect(screen.page.locator(".total")).to_have_text("Still to pay €25.74")


def test_why_opens_the_formula_with_her_numbers_in_it(screen):
    screen.open("/buy/strip-length")
    screen.fill(SIZES_TYPED["Grand"])
    screen.answers("strip-length", size_given("Grand"))
    screen.page.locator("[data-output=strip_length] summary").tap()
    told = screen.page.locator("[data-output=strip_length] .why-told")
    expect(told.locator("p").nth(0)).to_have_text("loop × fullness + 2 × end seam")
    expect(told.locator("p").nth(1)).to_have_text("= 180 mm × 3.2 + 2 × 10 mm")
    expect(told.locator("p").nth(2)).to_have_text("= 596 mm")
    # 5 % of 576 mm more cloth: 28.8 mm
    expect(told.locator("li").first).to_have_text("loop, 5 % more: +28.8 mm")


def test_tearing_is_refused_where_the_cloth_does_not_tear(screen):
    screen.open("/make/safe-cutting-checklist")
    screen.fill({"tool": "tearing", "cloth": "gauze"})
    told = screen.answers("safe-cutting-checklist", {"tool": "tearing", "cloth": "gauze"})
    assert told["result"]["allowed"] is False
    expect(screen.page.get_by_role("alert")).to_be_visible()
    expect(screen.page.locator("[data-item]")).to_have_count(0)


def test_nobody_signs_for_a_powered_knife_without_training(screen):
    screen.open("/make/safe-cutting-checklist").fill({"tool": "powered knife", "cloth": "woven"})
    page = screen.page
    expect(page.locator("[data-output=verdict]")).to_have_text("The usual cautions for this work.")
    page.fill("[data-sign] [name=skipped]", "as always")
    page.fill("[data-sign] [name=person]", "Imke")
    expect(page.locator("[data-sign] button")).to_be_disabled()
    expect(page.locator("[data-needed=powered-trained]")).to_be_visible()
    page.locator("[data-item=powered-trained] input").check()
    expect(page.locator("[data-sign] button")).to_be_enabled()
    screen.fill({"layers": "13"})
    expect(page.locator("[data-output=verdict]")).to_have_text("Not so many at once.")


class TestOneShopVisit:
    """Five dozen Everyday and two dozen Grand, three cloths compared, the list, the checklist."""

    # worked by hand; length to buy in mm, cost in cents, cost each in cents
    # Everyday 482 × 110, 60 pieces:
    #   lawn: usable 1352, along 12 a row, 5 rows = 2410; (2410 + 50) / 0.97 = 2536.1 → 2600; 2.6 × 8.90
    #   check: usable 1435, along 13 a row, 5 rows of 520 = 2600; 2650 / 0.96 = 2760.4 → 2800; 2.8 × 11.50
    #   gauze: usable 1247.2, along 11 a row, 6 rows = 2892; 2942 / 0.94 = 3129.8 → 28 eighths; 3.5 × 10.20
    # Grand 596 × 140, 24 pieces:
    #   lawn, mixed: 2 rows along of 9 and 3 across of 2 = 1612; 1662 / 0.97 = 1713.4 → 1800; 1.8 × 8.90
    #   check: along 10 a row, 3 rows of 600 = 1800; 1850 / 0.96 = 1927.1 → 2000; 2 × 11.50
    #   gauze: across 2 a row, 12 rows = 1680; 1730 / 0.94 = 1840.4 → 17 eighths; 2.125 × 10.20 = 21.675
    WANTED = {
        "Everyday": (60, [("Seagrass lawn", 2600, 2314, 38.57), ("Harbour check", 2800, 3220, 53.67),
                          ("Fog gauze", 3200.4, 3570, 59.5)]),
        "Grand": (24, [("Seagrass lawn", 1800, 1602, 66.75), ("Fog gauze", 1943.1, 2168, 90.33),
                       ("Harbour check", 2000, 2300, 95.83)]),
    }  # fmt: skip

    def test_from_sizes_to_the_list_and_the_checklist(self, screen):
        self.keep_the_sizes(screen)
        self.keep_the_cloths(screen)
        for size, (quantity, ranking) in self.WANTED.items():
            self.compare(screen, size, quantity, ranking)
            screen.page.get_by_role("button", name="Put on the list").first.tap()
            screen.wait_for_title("Shopping list")
        lines = screen.page.locator("[data-line] .tick > span")
        expect(lines).to_have_text([
            re.compile(r"^Seagrass lawn 2\.60 m.*60 pieces · Everyday · €23.14"),
            re.compile(r"^Seagrass lawn 1\.80 m.*24 pieces · Grand · €16.02"),
        ])  # fmt: skip
        expect(screen.page.locator(".total")).to_have_text("Still to pay €39.16")
        screen.page.locator("[data-line] input").first.check()
        expect(screen.page.locator(".total")).to_have_text("Still to pay €16.02")
        self.sign_the_checklist(screen)

    def keep_the_sizes(self, screen):
        for size in self.WANTED:
            screen.open("/buy/strip-length")
            screen.fill(SIZES_TYPED[size])
            screen.answers("strip-length", size_given(size))
            screen.save("piece", size)

    def keep_the_cloths(self, screen):
        for name in ("Seagrass lawn", "Harbour check", "Fog gauze"):
            screen.open("/buy/fabric-per-dozen")
            screen.fill({"strip_length": "482", "strip_width": "110", "mixed": False, "repeat": "0"})
            for path, unit in CLOTHS_UNITS.get(name, {}).items():
                screen.unit_of(path).select_option(unit)
            screen.fill(CLOTHS_TYPED[name])
            screen.answers("fabric-per-dozen", {**EVERYDAY_STRIP, **cloth_given(name)})
            screen.save("cloth", name)

    def compare(self, screen, size, quantity, ranking):
        screen.open("/buy/cloth-compare")
        screen.chip(size).tap()
        for cloth in CLOTHS_TYPED:
            screen.chip(cloth).tap()
        screen.fill({"quantity": str(quantity)})
        strip = screen.ask_core("answer", {"name": "strip-length", "given": size_given(size)})
        given = {name: strip["answer"]["result"][name] for name in EVERYDAY_STRIP}
        cloths = [{"name": name, **cloth_given(name)} for name in CLOTHS_TYPED]
        told = screen.answers("cloth-compare", {**given, "quantity": quantity, "cloths": cloths})
        columns = ("name", "length_to_buy", "cost", "cost_each")
        for row, wanted in zip(told["result"]["ranking"], ranking, strict=True):
            assert [row[column] for column in columns] == [wanted[0], pytest.approx(wanted[1]), *wanted[2:]]

    def sign_the_checklist(self, screen):
        screen.open("/make/safe-cutting-checklist")
        screen.fill({"tool": "rotary cutter", "cloth": "lawn"})
        screen.answers("safe-cutting-checklist", {"tool": "rotary cutter", "cloth": "lawn"})
        for must in screen.page.locator("[data-must] input").all():
            must.tap()
        screen.sign_as("Imke")
        expect(screen.page.locator("[data-signed]")).to_contain_text("Signed today by Imke")
