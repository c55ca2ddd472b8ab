"""The drawings are to scale: what the SVG shows are the answer's own measures."""

import json

import pytest
from playwright.sync_api import expect

CLOSE = 0.02  # drawing units, of 360 across

SHAPES = r"""() => {
  const numbers = (shape) => ['x', 'y', 'width', 'height', 'r']
    .map((key) => [key, Number(shape.getAttribute(key) ?? 0)]);
  // a band of strips is one path, each strip an outline in it
  const outlines = (band) => [...band.getAttribute('d').matchAll(/M(\S+) (\S+)h(\S+)v(\S+)h/g)]
    .map((found) => found.slice(1).map(Number))
    .map(([x, y, width, height]) => ({ x, y, width, height }));
  return [...document.querySelectorAll('.drawing [data-shape], .drawing .strip, .drawing .cloth')]
    .flatMap((shape) => (shape.matches('path.strip') ? outlines(shape) : [Object.fromEntries(numbers(shape))])
      .map((measures) => ({
        name: shape.dataset.shape ?? shape.getAttribute('class'),
        turned: shape.dataset.turned !== undefined,
        ...measures,
      })));
}"""


def shapes(page, name):
    return [shape for shape in page.evaluate(SHAPES) if shape["name"] == name]


@pytest.mark.parametrize("loop", ["165", "320"])
def test_the_strip_the_tube_and_the_ring_are_drawn_to_one_scale(screen, loop):
    screen.open("/buy/strip-length").fill({"loop": loop, "end_seam": "12"})
    told = screen.answers("strip-length", {"loop": float(loop), "end_seam": 12.0})["result"]
    [strip], [tube] = shapes(screen.page, "strip"), shapes(screen.page, "tube")
    scale = strip["width"] / told["strip_length"]
    assert strip["height"] == pytest.approx(told["strip_width"] * scale, abs=CLOSE)
    assert tube["width"] == pytest.approx((told["strip_length"] - 24) * scale, abs=CLOSE)
    assert tube["height"] == pytest.approx(45 * scale, abs=CLOSE)
    hole = float(screen.page.locator(".drawing .buy-hole").get_attribute("r"))
    assert 2 * 3.141592653589793 * hole == pytest.approx(float(loop) * scale, abs=CLOSE)


def test_the_drawing_changes_with_the_numbers(screen):
    screen.open("/buy/strip-length")
    screen.answers("strip-length", {})
    before = shapes(screen.page, "tube")[0]["height"] / shapes(screen.page, "tube")[0]["width"]
    screen.fill({"tube_width": "90"})
    screen.answers("strip-length", {"tube_width": 90.0})
    after = shapes(screen.page, "tube")[0]["height"] / shapes(screen.page, "tube")[0]["width"]
    assert after == pytest.approx(2 * before, rel=0.001)


def test_each_row_on_the_cloth_lies_where_the_answer_has_it(screen):
    given = {
        "strip_length": 482.0, "strip_width": 110.0, "quantity": 24, "bolt_width": 1500.0,
        "shrink_length": 4.0, "shrink_width": 3.0, "repeat": 40.0,
    }  # fmt: skip
    screen.open("/buy/fabric-per-dozen")
    screen.fill({"strip_length": "482", "strip_width": "110", "quantity": "24", "bolt_width": "150",
                 "shrink_length": "4", "shrink_width": "3", "repeat": "40"})  # fmt: skip
    told = screen.answers("fabric-per-dozen", given)["result"]
    [cloth], strips = shapes(screen.page, "cloth"), shapes(screen.page, "strip")
    scale = cloth["width"] / told["bought_washed"]
    assert cloth["height"] == pytest.approx(told["usable_width"] * scale, abs=CLOSE)
    [band] = told["bands"]
    assert len(strips) == band["rows"] * band["per_row"]
    across = band["direction"] == "across"
    high, wide = (110, 482) if across else (482, 110)
    for index, strip in enumerate(strips):
        row, place = divmod(index, band["per_row"])
        assert strip["x"] == pytest.approx(row * band["row_height"] * scale, abs=CLOSE)
        assert strip["y"] == pytest.approx(cloth["y"] + place * wide * scale, abs=CLOSE)
        assert (strip["width"], strip["height"]) == pytest.approx((high * scale, wide * scale), abs=CLOSE)


def test_each_strip_on_a_remnant_lies_where_the_answer_has_it(screen):
    screen.open("/buy/remnant-yield")
    screen.fill({"width": "60", "length": "100", "strip_length": "482", "strip_width": "110"})
    given = {"width": 600.0, "length": 1000.0, "strip_length": 482.0, "strip_width": 110.0}
    told = screen.answers("remnant-yield", given)["result"]
    [cloth], strips = shapes(screen.page, "cloth"), shapes(screen.page, "strip")
    scale = cloth["width"] / told["usable_length"]
    placed = json.loads(screen.page.locator("[data-output=placed]").get_attribute("data-value"))
    assert placed == told["placed"]
    assert len(strips) == told["pieces"] == 11
    for strip, where in zip(strips, told["placed"], strict=True):
        across, along = (110, 482) if where["turned"] else (482, 110)
        found = (strip["x"], strip["y"], strip["width"], strip["height"])
        wanted = (where["y"] * scale, where["x"] * scale, along * scale, across * scale)
        assert found == pytest.approx(wanted, abs=CLOSE)
        assert strip["turned"] == where["turned"]


def test_the_bars_of_the_ranking_are_as_long_as_their_costs(screen):
    screen.open("/buy/cloth-compare")
    screen.fill({"strip_length": "482", "strip_width": "110", "quantity": "60"})
    washed = {"shrink_length": "3", "shrink_width": "2"}
    lawn = {"name": "Seagrass lawn", "bolt_width": "140", "price": "8.90", **washed}
    check = {"name": "Harbour check", "bolt_width": "150", "price": "11.50", **washed}
    for row, cloth in enumerate((lawn, check)):
        screen.fill({f"cloths.{row}.{field}": value for field, value in cloth.items()})
    expect(screen.page.locator(".buy-ranking li")).to_have_count(2)
    ranking = json.loads(screen.page.locator("[data-output=ranking]").get_attribute("data-value"))
    bars = [float(bar.get_attribute("width")) for bar in screen.page.locator(".bar rect").all()]
    most = max(ranked["cost_each"] for ranked in ranking)
    assert bars == pytest.approx([100 * ranked["cost_each"] / most for ranked in ranking], abs=CLOSE)
