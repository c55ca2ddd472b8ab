"""What a start writes: no number is made of new that stood there before, and none in another language."""

import pytest
from playwright.sync_api import expect

from .stall import opened_stall

# whether amounts were made before the tiles that say them were there
COUNT_MAKING = """
    self.madeBefore = 0;
    const { NumberFormat } = Intl;
    Intl.NumberFormat = class extends NumberFormat {
      constructor(...how) {
        super(...how);
        self.madeBefore += document.querySelector('[data-product]') ? 0 : 1;
      }
    };
"""


@pytest.fixture
def open_stall(laid, visited, new_phone):
    """Open the stall on a copy of one phone: `open_stall(locale)`."""
    profile, address = laid(opened_stall)[0], visited[1]

    def make(**like):
        phone = new_phone(address, profile, **like)
        phone.switch_on(offline=True)
        phone.context.add_init_script(COUNT_MAKING)
        return phone.screen.start_at("/sell").page

    return make


# what was written is kept after the paint
ALL_WRITTEN = """async () => {
  const { painted } = await import('/data/painted.js');
  const { settled } = await import('/data/store/remembered.js');
  await painted();
  await settled();
}"""


def test_amounts_that_stood_there_before_are_not_made_again(open_stall):
    page = open_stall()
    expect(page.locator("[data-product]").first).to_contain_text("€")
    page.evaluate(ALL_WRITTEN)
    page.reload()
    expect(page.locator("[data-product]").first).to_contain_text("€")
    assert page.evaluate("self.madeBefore") == 0


def test_in_another_language_all_is_written_anew(open_stall):
    page = open_stall(locale="de-DE")
    expect(page.locator("[data-product]").first).to_contain_text("6,00\xa0€")
    assert page.evaluate("self.madeBefore") == 1
