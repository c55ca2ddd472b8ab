"""What a key on a form does, and what it leaves alone."""

from playwright.sync_api import expect

# what is made anew in the screen
WATCH = """() => {
  window.made = [];
  new MutationObserver((records) => {
    for (const { addedNodes } of records)
      for (const node of addedNodes) if (node.nodeType === Node.ELEMENT_NODE) made.push(node.outerHTML);
  }).observe(document.getElementById('main'), { childList: true, subtree: true });
}"""
EVERYDAY = {"loop": "165", "fullness": "2.8", "tube_width": "45"}


def strip(screen):
    """Open the strip's form, typed and answered."""
    screen.open("/buy/strip-length")
    screen.fill(EVERYDAY)
    # 165 × 2.8 + 2 × 10
    expect(screen.words_of("strip_length")).to_have_text("482 mm")
    screen.settle()


def test_a_key_makes_nothing_anew(screen):
    strip(screen)
    page = screen.page
    page.evaluate(WATCH)
    page.locator("[name=fullness]").press("End")
    page.keyboard.press("Backspace")
    # 165 × 2 + 2 × 10, by "2."
    expect(screen.words_of("strip_length")).to_have_text("350 mm")
    assert page.evaluate("made") == []


FORESEEN = "(text) => foreseen('fill').some(({ args }) => args.typed.fullness === text)"
ASKED = "() => atOnce('fill').length"


def test_the_next_key_is_answered_before_it_is_pressed(screen):
    strip(screen)
    page = screen.page
    screen.listen_to_core()
    page.locator("[name=fullness]").press("End")
    for key, typed, length in (
        ("Backspace", "2.", "350 mm"),
        ("9", "2.9", "499 mm"),
        ("5", "2.95", "507 mm"),
    ):
        asked = page.evaluate(ASKED)
        page.keyboard.press(key)
        expect(screen.words_of("strip_length")).to_have_text(length)
        # the first key was not foreseen; of any further one the core is not asked again
        assert page.evaluate(ASKED) - asked == (1 if key == "Backspace" else 0)
        page.wait_for_function(FORESEEN, arg=f"{typed}0")
        page.wait_for_function(FORESEEN, arg=typed[:-1])


def test_an_open_formula_shuts_when_something_else_is_typed(screen):
    strip(screen)
    page = screen.page
    formula = page.locator("[data-output=strip_length] details")
    formula.locator("summary").tap()
    expect(formula.locator(".why-told")).to_contain_text("165 mm × 2.8")
    screen.fill({"fullness": "3"})
    expect(formula).not_to_have_attribute("open", "")
    expect(formula.locator(".why-told")).to_have_count(0)
    formula.locator("summary").tap()
    expect(formula.locator(".why-told")).to_contain_text("165 mm × 3")


def test_a_page_left_at_once_keeps_what_was_typed(screen):
    strip(screen)
    page = screen.page
    for text, length in (("2", "350 mm"), ("3", "515 mm"), ("4", "680 mm")):
        page.evaluate(
            """(text) => {
              self.isLeft = true;
              const field = document.querySelector('[name=fullness]');
              field.value = text;
              field.dispatchEvent(new Event('input', { bubbles: true }));
              location.reload();
            }""",
            text,
        )
        page.wait_for_function("() => !self.isLeft")
        expect(screen.words_of("strip_length")).to_have_text(length)


def test_what_is_typed_shows_before_an_answer_that_is_slow(screen):
    strip(screen)
    page = screen.page
    page.evaluate("""() => {
      const post = Worker.prototype.postMessage;
      window.held = [];
      Worker.prototype.postMessage = function (...told) { held.push(() => post.apply(this, told)); };
    }""")
    # what stands beside the box is drawn from what is typed
    box = page.locator("[name=stretch_cloth]")
    box.check()
    expect(page.locator(".field", has=box).locator("[aria-hidden=true]")).to_have_text("yes")
    page.evaluate("held.forEach((post) => post())")
