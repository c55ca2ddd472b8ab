"""Thread for open batches and a plan: by colour, with what is at home and what to buy."""

from backend.core.making.thread_of_plan import thread_of_plan
from tests.core.ids import named

# a piece takes 2 × ((482 + 110) × 1.25 + 2 × 100) × 1.15 mm, half of it from the bobbin
EACH = 1081.0
GREEN, RUST = named("green"), named("rust")
LINE = {"size": named("s"), "cloth": named("lawn"), "quantity": 48}
RECORDS = {
    "piece": {named("s"): {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45}},
    "thread": {
        GREEN: {"name": "Green", "length": 1000000, "price": 420, "opened": 50000},
        RUST: {"name": "Rust", "length": 100000, "price": 250, "spools": 1},
    },
    "batch": {named("b"): {"number": "1", "needle": GREEN, "lines": [LINE]}},
}


def told(wanted=(), choices=None, **records):
    return thread_of_plan({**RECORDS, **records}, list(wanted), choices or {})


def of(thread, told):
    return next(row for row in told["threads"] if row["thread"] == thread)


def test_an_open_batch_takes_its_needle_and_its_bobbin():
    green = of(GREEN, told())
    assert (green["pieces"], green["length"]) == (48, 48 * 2 * EACH)
    # 103,776 mm, of which 50 m are at home: a spool for the rest
    assert (green["at_home"], green["from_home"], green["spools"], green["cost"]) == (50000, 50000, 1, 420)
    two = {named("b"): {**RECORDS["batch"][named("b")], "bobbin": RUST}}
    both = told(batch=two)
    assert of(GREEN, both)["length"] == of(RUST, both)["length"] == 48 * EACH
    assert of(RUST, both)["spools"] == 0


def test_a_finished_batch_takes_nothing_more():
    done = {named("b"): {**RECORDS["batch"][named("b")], "state": "finished"}}
    assert [row["length"] for row in told(batch=done)["threads"]] == [0.0, 0.0]


def test_what_is_planned_takes_the_thread_of_its_cloth():
    planned = told([{**LINE, "quantity": 12}])
    assert planned["cloths"] == [{"cloth": named("lawn"), "thread": GREEN, "pieces": 12}]
    assert of(GREEN, planned)["pieces"] == 60
    chosen = told([{**LINE, "quantity": 12}], {named("lawn"): RUST})
    assert of(RUST, chosen)["pieces"] == 12
    other = told([{**LINE, "cloth": named("new"), "quantity": 12}])
    assert other["cloths"][0]["thread"] is None
    assert of(GREEN, other)["pieces"] == 48


def test_an_opened_spool_is_weighed():
    weighed = {**RECORDS["thread"][GREEN], "grams": 34, "empty": 10, "tex": 40}
    # 24 g of 40 g a kilometre
    assert of(GREEN, told(thread={GREEN: weighed}))["at_home"] == 600000
    light = {**weighed, "grams": 5}
    assert of(GREEN, told(thread={GREEN: light}))["at_home"] == 50000


def test_a_thread_without_a_price_has_no_cost():
    free = {GREEN: {"name": "Green", "length": 1000000}}
    assert of(GREEN, told(thread=free))["cost"] is None
