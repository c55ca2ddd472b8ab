"""The screens of a batch for every hand and eye, and its sheet on paper."""

import pytest
from playwright.sync_api import expect

from .looks import COLOURS, look, out_of_place, violations
from .sewing import Sewing, begin, cut_strips, end, open_batch, sign_for, start_batch
from .shop import act
from .test_accessible import CONTRAST, TARGET, everything_is_reached
from .test_printing import controls_in_print, printed


def begun(phone):
    """Have a batch whose first lap is about to begin; returns its id."""
    sewing = Sewing(phone)
    cut_strips(phone, sewing, Everyday=36, Petite=12)
    batch = start_batch(phone)
    sign_for(phone, sewing, "Imke")
    return batch


def screens(phone):
    """Each screen of a batch, as far as it goes."""
    screen = phone.screen
    screen.open("/make/batches/new").page.locator("h1").wait_for()
    yield "nothing to sew yet"
    sewing = Sewing(phone)
    cut_strips(phone, sewing, Everyday=36, Petite=12)
    page = screen.open("/make").page
    page.locator("[data-waiting]").first.wait_for()
    yield "Make with strips that wait"
    page = screen.open("/make/batches/new").page
    page.locator("[data-free] input[type=checkbox]").first.click()
    page.locator("details > summary").first.click()
    page.locator("[data-add-line]").click()
    page.locator("[data-typed]").wait_for()
    yield "starting a batch"
    page.locator("[data-start]").click()
    page.locator("[data-unsigned]").wait_for()
    screen.hush()
    yield "before the first step"
    batch = page.url.rsplit("/", 1)[1]
    sign_for(phone, sewing, "Imke")
    page = open_batch(phone, batch)
    page.locator("[data-finish]").wait_for()
    yield "a batch"
    page.locator("[data-begin]").click()
    page.locator("[data-lap=runs]").wait_for()
    end_by_key(page)
    page.locator("[data-pause]").click()
    page.locator("[data-lap=paused]").wait_for()
    yield "a lap that is paused"
    page = screen.open(f"/make/batches/{batch}/sample").page
    page.locator("[data-piece]").wait_for()
    for summary in page.locator("summary").all():
        summary.click()
    yield "a sample"
    page.locator("[data-fault]").first.click()
    page.locator("[data-verdict=reject]").wait_for()
    yield "a sample with its verdict"
    page = screen.open(f"/make/batches/{batch}/finished").page
    page.locator("[data-made]").first.wait_for()
    yield "what came of it"
    act(phone, "describeNew", "batch", {"number": "2", "lines": [{**line(sewing), "quantity": 6}]})
    page = screen.open("/make").page
    page.locator("[data-saves]").wait_for()
    yield "Make with two batches"


def line(sewing):
    return {"size": sewing.size["Everyday"], "cloth": sewing.cloth}


def end_by_key(page):
    page.locator("[data-end]").press("Enter")
    page.locator("[data-laps]").wait_for()


@pytest.mark.parametrize("large", [False, True], ids=["usual text", "text twice as large"])
def test_nothing_of_a_batch_is_lost_on_any_screen(phone, large):
    if large:
        phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    screen, wrong = phone.screen, {}
    for name in screens(phone):
        found = look(screen, "outOfPlace") if large else out_of_place(screen, width=320, height=640)
        if not large:
            found += violations(screen) + look(screen, "smallTargets", TARGET)
            found += look(screen, "lowContrast", CONTRAST)
            screen.page.emulate_media(color_scheme="dark")
            found += violations(screen, COLOURS)
            screen.page.emulate_media(color_scheme="light")
        if found:
            wrong[name] = found
    assert wrong == {}


def test_the_keyboard_reaches_all_of_a_batch_and_ends_its_laps(phone):
    batch = begun(phone)
    page = open_batch(phone, batch)
    phone.screen.reload()
    page.locator("[data-finish]").wait_for()
    everything_is_reached(phone.screen)
    phone.screen.tab_to(page.locator("[data-begin]"))
    page.keyboard.press("Enter")
    page.locator("[data-lap=runs]").wait_for()
    phone.screen.tab_to(page.locator("[data-end]"))
    page.keyboard.press("Enter")
    expect(page.locator("[data-laps]")).to_have_attribute("data-laps", "1")


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_the_sheet_of_a_batch_prints_on_one_page(phone, tmp_path, format):
    batch = begun(phone)
    page = open_batch(phone, batch)
    begin(page)
    end(page)
    page.locator("[data-finish]").wait_for()
    assert printed(phone.screen, tmp_path, format)[0] == 1
    assert controls_in_print(page) == []
