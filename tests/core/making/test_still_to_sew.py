"""What sewing plans still want, by batches that are begun and strips that wait."""

from backend.core.making.still_to_sew import sewing_plans, still_to_sew
from tests.core.ids import named

DAY = "2026-05-04"
SATURDAY, FAIR = named("sat"), named("fair")
LAWN, CHECK, SIZE, RUST = named("lawn"), named("check"), named("size"), named("rust")
TIE, OTHER = named("tie"), named("other")


def line(product, quantity, batches=None):
    return {"product": product, "quantity": quantity, "batches": batches}


def batch(quantity, needed, cloth=LAWN, **more):
    lines = [{"size": SIZE, "cloth": cloth, "quantity": quantity}]
    return {"number": "1", "needle": RUST, "needed": needed, "lines": lines, **more}


def plan(booking, *lines, **more):
    return {"use": "sew", "booking": booking, "lines": list(lines), **more}


RECORDS = {
    "booking": {SATURDAY: {"days": ["2026-05-09"]}, FAIR: {"days": ["2026-05-16", "2026-05-17"]}},
    "product": {
        TIE: {"size": SIZE, "cloth": LAWN, "price": 600, "group": "Everyday"},
        OTHER: {"size": SIZE, "cloth": CHECK, "price": 600, "group": "Everyday"},
    },
    "thread": {RUST: {"name": "Rust", "length": 1000000}},
    "plan": {named("p1"): plan(SATURDAY, line(TIE, 96, 2), line(OTHER, 48, 1))},
}


def told(waiting=(), day=DAY, **records):
    return still_to_sew({**RECORDS, **records}, list(waiting), {}, day)


def lines_of(told, plan=0):
    return [(row["quantity"], row["begun"], row["left"], row["batch"], row["strips"])
            for row in told["plans"][plan]["lines"]]  # fmt: skip


def test_all_is_wanted_where_nothing_is_begun():
    found = told()
    assert [(one["booking"], one["needed"]) for one in found["plans"]] == [(SATURDAY, "2026-05-09")]
    assert lines_of(found) == [(96, 0, 96, 48, 0), (48, 0, 48, 48, 0)]
    assert found["wanted"] == [
        {"size": SIZE, "cloth": LAWN, "quantity": 96},
        {"size": SIZE, "cloth": CHECK, "quantity": 48},
    ]


def test_batches_needed_on_its_first_day_are_begun_for_it_open_or_finished():
    batches = {
        named("b1"): batch(48, "2026-05-09", state="finished"),
        named("b2"): batch(30, "2026-05-16"),
        named("b3"): batch(12, "2026-05-09", CHECK, archived=True),
    }
    found = told(batch=batches)
    assert lines_of(found) == [(96, 48, 48, 48, 0), (48, 0, 48, 48, 0)]
    # what its last batch had in the needle
    assert found["plans"][0]["lines"][0]["thread"] == RUST
    more = told(batch={**batches, named("b4"): batch(60, "2026-05-09")})
    assert lines_of(more)[0] == (96, 96, 0, 0, 0)


def test_strips_that_wait_need_not_be_cut():
    found = told([{"cloth": LAWN, "size": SIZE, "quantity": 40}])
    assert lines_of(found)[0] == (96, 0, 96, 48, 40)
    assert {row["cloth"]: row["quantity"] for row in found["wanted"]} == {LAWN: 56, CHECK: 48}
    enough = told([{"cloth": LAWN, "size": SIZE, "quantity": 500}])
    assert [row["cloth"] for row in enough["wanted"]] == [CHECK]


def test_strips_and_batches_go_to_the_earlier_booking_first_and_once():
    plans = {**RECORDS["plan"], named("p0"): plan(FAIR, line(TIE, 48, 1))}
    found = told([{"cloth": LAWN, "size": SIZE, "quantity": 100}], plan=plans)
    assert [one["booking"] for one in found["plans"]] == [SATURDAY, FAIR]
    assert lines_of(found, 0)[0] == (96, 0, 96, 48, 48)
    assert lines_of(found, 1) == [(48, 0, 48, 48, 4)]
    assert {row["cloth"]: row["quantity"] for row in found["wanted"]} == {LAWN: 44, CHECK: 48}


def test_plans_that_are_over_archived_or_for_packing_want_nothing():
    assert told(day="2026-05-10")["plans"] == []
    one = RECORDS["plan"][named("p1")]
    for other in ({**one, "archived": True}, {**one, "use": "pack"}, {**one, "booking": None}):
        assert told(plan={named("p1"): other}) == {"plans": [], "wanted": []}
    # a fair of two days is sewn for until its last
    assert told(day="2026-05-17", plan={named("p2"): plan(FAIR, line(TIE, 12))})["plans"]


def test_a_product_that_is_not_known_here_is_left_out():
    found = told(product={TIE: RECORDS["product"][TIE]})
    assert len(found["plans"][0]["lines"]) == 1


def made(booking, product, quantity, batches):
    return {"booking": booking, "product": product, "quantity": quantity, "batches": batches}


def test_a_plan_made_anew_has_what_is_begun_for_it_and_the_rest_as_decided():
    batches = {named("b1"): batch(48, "2026-05-09"), named("b2"): batch(30, "2026-05-16")}
    found = sewing_plans({**RECORDS, "batch": batches}, [made(SATURDAY, TIE, 24, 1)], DAY)
    assert found == [{"booking": SATURDAY, "lines": [line(TIE, 72, 2)]}]
    # what was decided is what is still to sew then
    again = told(batch=batches, plan={named("p1"): plan(SATURDAY, *found[0]["lines"])})
    assert again["plans"][0]["lines"][0]["left"] == 24


def test_a_plan_for_which_nothing_is_left_to_sew_has_no_lines():
    found = sewing_plans(RECORDS, [made(FAIR, TIE, 48, 1)], DAY)
    assert found == [{"booking": FAIR, "lines": [line(TIE, 48, 1)]}, {"booking": SATURDAY, "lines": []}]
