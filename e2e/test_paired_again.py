"""A phone that loses its cookie right after it was paired pairs itself again, and stays the phone it was."""

from playwright.sync_api import expect

from .shop import act, ask, exchange

UNPAIRED = "401 (Unauthorized)"


def place_of(phone, name):
    return act(phone, "describeNew", "place", {"name": name, "use": "home"})


def test_a_phone_killed_right_after_its_pairing_pairs_itself_again(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    id = ask(joss, "clock", "deviceId")
    # its browser has not written the cookie to the disk yet, or has: it is gone here either way
    joss.expected.append(UNPAIRED)
    joss.kill()
    joss.switch_on()
    joss.context.clear_cookies()
    page = joss.screen.start_at("/settings").page
    expect(page.locator("[data-standing=paired]")).to_be_visible()
    place_of(imke, "Home shelf")
    exchange(imke, joss)
    assert ask(joss, "clock", "deviceId") == id
    assert ask(joss, "sync", "standing")["role"] == "helper"
    assert [place["name"] for place in ask(joss, "records", "records", "place")] == ["Home shelf"]
    # and again, by what it left that time
    joss.context.clear_cookies()
    place_of(imke, "Attic")
    exchange(imke, joss)
    assert len(ask(joss, "records", "records", "place")) == 2


def test_a_phone_whose_code_is_over_says_so_and_keeps_what_it_holds(paired):
    imke = paired("Imke's phone")
    imke.expected += [UNPAIRED, "403 (Forbidden)"]
    imke.context.clear_cookies()
    ask(imke, "store/remembered", "remember", "again", "0190aaaa-bbbb-4ccc-8ddd-eeeeffff0000")
    place_of(imke, "Home shelf")
    page = imke.screen.page
    ask(imke, "sync", "syncNow")
    expect(page.locator("[data-standing=unpaired]")).to_be_visible()
    expect(page.locator("#pair-code")).to_be_visible()
    assert len(ask(imke, "records", "records", "place")) == 1
    # asked once: it does not try a code again that is none
    assert ask(imke, "store/remembered", "recall", "again") is None
