"""A cut that is void: undone at once, taken back later, the same on both phones; the rows' heights."""

import pytest
from playwright.sync_api import expect

from .cuts import make_all_cuts
from .cutting_table import BASKET, LAWN, begin_layout, furnish, lay_out, plan_of, sign, want
from .screen import HELD
from .shop import act, ask, exchange

# of the words below a drawing: [text, height, rows, left, top, right, bottom], in pixels
HEIGHTS = """(section) => [...section.querySelectorAll('.row-height')].map((text) => {
  const { left, top, right, bottom } = text.getBoundingClientRect();
  return [text.textContent, Number(text.dataset.height), Number(text.dataset.rows), left, top, right, bottom];
})"""


@pytest.fixture
def ground():
    return furnish


@pytest.fixture
def table(screen):
    """A phone without a signal that knows the sizes, two cloths and a remnant."""
    return screen


def cut_six(screen):
    """Cut six from the remnant, keep every offcut, and record it."""
    page = want(screen, ("Everyday", LAWN, 1))
    page.locator("[data-wanted] input").fill("6")
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    page.locator("[data-to-cuts]").tap()
    sign(screen)
    make_all_cuts(page)
    for offcut in page.locator("[data-offcut] input").all():
        offcut.check()
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "6")
    return page


def remnants(phone):
    return [remnant["name"] for remnant in ask(phone, "records", "records", "remnant")]


def take_back(screen):
    """Take the latest cut back, from its line."""
    page = screen.open("/make/cuts").page
    page.locator("[data-cut] a").first.tap()
    page.locator("[data-take-back]").tap()
    expect(page.locator("[data-taken-back]")).to_be_visible()
    return page


def test_a_cut_just_recorded_is_undone_and_its_plan_is_there_again(table, phone):
    page = cut_six(table)
    assert BASKET["name"] not in remnants(phone)
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator("[data-cutting]")).to_have_text("Record what was cut")
    expect(page.locator("[data-waiting]")).to_have_count(0)
    # the remnant is there again, what was left of it is not
    assert remnants(phone) == [BASKET["name"]]
    page.locator("[data-cutting]").tap()
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "6")


def test_a_cut_is_taken_back_later_and_an_offcut_may_stay(table, phone):
    page = cut_six(table)
    [first, *others] = ask(phone, "records", "records", "remnant")
    assert others
    page = table.open("/make/cuts").page
    page.locator("[data-cut] a").first.tap()
    page.locator(f'[data-stays="{first["id"]}"]').check()
    page.locator("[data-take-back]").tap()
    expect(page.locator("[data-taken-back]")).to_be_visible()
    assert sorted(remnants(phone)) == sorted([BASKET["name"], first["name"]])
    table.open("/make")
    expect(page.locator("[data-cutting]")).to_be_visible()
    assert ask(phone, "cuts", "stripsWaiting") == []


def test_both_phones_agree_on_a_cut_taken_back_by_the_other(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    furnish(imke)
    exchange(imke, joss)
    cut_six(joss.screen)
    exchange(joss, imke)
    assert BASKET["name"] not in remnants(imke)
    take_back(imke.screen)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert ask(phone, "cuts", "stripsWaiting") == []
        assert remnants(phone) == [BASKET["name"]]


def test_more_remnants_than_can_be_planned_are_said_to_be_left_out(table, phone):
    lawn = ask(phone, "records", "records", "cloth")[0]["id"]
    for number in range(12):
        rest = {"name": f"Rest {number}", "cloth": lawn, "width": 300 + number, "length": 300}
        act(phone, "describeNew", "remnant", rest)
    # thirteen with the one there was, and room for eleven beside the bolt
    page = want(table, ("Everyday", LAWN, 1))
    begin_layout(page)
    expect(page.locator("[data-left-out]")).to_have_attribute("data-left-out", "2")
    expect(page.locator("[data-left-out]")).to_contain_text("the smallest 2 are not in it")


@pytest.mark.parametrize("width", [390, 320])
def test_the_height_of_each_row_stands_below_it_and_no_words_overlap(table, phone, width):
    page = lay_out(table, ("Everyday", LAWN, 4), ("Petite", LAWN, 2), ("Grand", LAWN, 2))
    page.set_viewport_size({"width": width, "height": 844})
    laid = [cloth for cloth in plan_of(phone)["layout"]["result"]["cloths"] if cloth["rows"]]
    sections = page.locator("section.make-laid")
    expect(sections).to_have_count(len(laid))
    for section, cloth in zip(sections.all(), laid, strict=True):
        expect(section).to_have_attribute("data-latest", "true")
        section.locator(".row-height").first.wait_for()
        told = section.evaluate(HEIGHTS)
        assert [row[1:3] for row in told] == like_rows(cloth["rows"])
        # the ruler's settings are said in the same words beside the drawing
        cuts = section.locator("ol.cuts").inner_text()
        for text, *_ in told[:-1]:
            assert f"ruler at {text.split(' × ')[-1]}," in cuts
        for place, (_, _, _, left, top, right, bottom) in enumerate(told):
            assert left >= 0 and right <= width
            for _, _, _, other_left, other_top, other_right, other_bottom in told[:place]:
                beside = right <= other_left or other_right <= left
                assert beside or bottom <= other_top or other_bottom <= top
        page.emulate_media(media="print")
        expect(section.locator(".row-height")).to_have_count(len(told))
        expect(section.locator(".row-height").first).to_be_visible()
        page.emulate_media(media="null")


def like_rows(rows):
    """List the heights of rows, those next to each other that are alike together: [[height, rows]]."""
    told = []
    for row in rows:
        if told and told[-1][0] == row["height"]:
            told[-1][1] += 1
        else:
            told.append([row["height"], 1])
    return told


def test_the_first_screen_of_make_comes_whole_so_that_nothing_moves_under_a_finger(table, phone):
    phone.context.add_init_script(HELD)
    table.reload()
    cut_six(table)
    page = table.page
    page.evaluate("() => sessionStorage.setItem('held', 'waiting_strips')")
    # something is new, and has to be looked at
    act(phone, "describeNew", "place", {"name": "Attic", "use": "home"})
    page = table.start_at("/make").page
    expect(page.locator("main > *")).to_have_count(1)
    page.evaluate("() => sessionStorage.removeItem('held')")
    page = table.start_at("/make").page
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "6")
    # and what nothing was added to since is there without the core being asked
    page.evaluate("() => sessionStorage.setItem('held', 'waiting_strips')")
    table.settle()
    page = table.start_at("/make").page
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "6")
