"""Beside the place of an answer stands what it waits for; a field that is emptied is empty."""

from playwright.sync_api import expect

from .scenario import CLOTHS_TYPED
from .shop import act

TYPED = {"strip_length": "482", "strip_width": "110", "quantity": "60", **CLOTHS_TYPED["Seagrass lawn"]}


def test_what_is_missing_is_named_until_the_answer_is_there(screen):
    screen.open("/buy/fabric-per-dozen")
    needed = screen.page.locator(".dock [data-needed]")
    expect(needed).to_contain_text("Still needed: strip length, strip width, bolt width")
    screen.fill(TYPED)
    expect(needed).to_have_count(0)
    screen.fill({"bolt_width": "wide"})
    expect(needed).to_have_text("To put right: bolt width.")


def test_an_emptied_field_asks_and_is_not_filled_in_unseen(screen):
    screen.open("/buy/fabric-per-dozen").fill(TYPED)
    length = screen.page.locator("[data-output=length_to_buy]")
    expect(length).not_to_have_attribute("data-value", "")
    screen.fill({"quantity": "", "price": ""})
    expect(length).to_have_attribute("data-value", "")
    expect(screen.page.locator(".dock [data-needed]")).to_have_text("Still needed: quantity.")
    # it is as she left it
    screen.reload()
    expect(screen.field("quantity")).to_have_value("")
    expect(screen.page.locator(".dock [data-needed]")).to_have_text("Still needed: quantity.")


def test_a_row_of_a_list_says_which_it_is(screen):
    screen.open("/buy/cloth-compare").fill({"strip_length": "482", "strip_width": "110"})
    needed = screen.page.locator(".dock [data-needed]")
    expect(needed).to_have_text("Still needed: cloths.")
    screen.fill({"cloths.0.name": "lawn", "cloths.0.bolt_width": "140"})
    expect(needed).to_contain_text("shrink length of lawn")


def test_an_emptied_field_of_a_record_asks_too(screen, phone):
    screen.open("/settings")
    cloth = act(phone, "describeNew", "cash-box", {"name": "Green tin", "usual_float": 5000})
    page = screen.open(f"/settings/cash-box/{cloth}").page
    page.fill("[name=usual_float]", "")
    expect(page.locator("[data-needed]")).to_have_text("Still needed: usual float")
    expect(page.get_by_role("button", name="Save")).to_be_disabled()
