"""The cuts at the table, one by one, as they are made on a phone."""

from playwright.sync_api import expect


def make_all_cuts(page):
    """Tap through the cuts, up to what is recorded at the end, and tick what comes after."""
    count = int(page.locator("h1").inner_text().rpartition(" ")[2])
    for number in range(count):
        expect(page.locator("h1")).to_have_text(f"Cut {number + 1} of {count}")
        page.locator("[data-next]").click()
    expect(page.locator("h1")).to_have_text("All cut")
    expect(page).to_have_title("All cut · Boltfair")
    tick_after(page)


def tick_after(page):
    """Tick what the checklist asks once all is cut."""
    page.locator("[data-after]").first.wait_for()
    for asked in page.locator("[data-after]").all():
        asked.check()
