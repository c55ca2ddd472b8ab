"""What helpers undid or gave back at odds: told to owners in whatever order it came."""

from itertools import permutations

from backend.core.records.kinds import LEFT_OUT
from backend.core.reviewing.doubtful import FAR_FROM_IT_MS, MOST_MINUTES_A_DAY, RECEIVED_LATE_MS, doubtful
from tests.core.ids import named

MAY = 1_777_700_000_000
DAY = "2026-05-02"
LINES = [{"product": "p", "quantity": 1, "unit_price": 600, "total": 600}]
SALE = {
    "kind": "sale", "id": "s", "at": MAY, "day": DAY, "place": "stall", "lines": LINES,
    "amount": 1200, "payment": "cash",
}  # fmt: skip


def void(after, id="v", of="s", kind="void", link="sale"):
    return {"kind": kind, "id": id, "at": MAY + after, "day": DAY, link: of}


def refund(id, amount, sale="s", after=1000):
    return {
        "kind": "refund", "id": id, "at": MAY + after, "day": DAY, "sale": sale, "place": "stall",
        "lines": LINES, "amount": amount, "payment": "cash", "goods": "table",
    }  # fmt: skip


def made(id, *pieces, after=0, batch="b"):
    lines = [{"product": "p", "made": count, "good": 0} for count in pieces]
    return {
        "kind": "batch-result", "id": id, "at": MAY + after, "day": DAY, "batch": batch, "place": "home",
        "lines": lines,
    }  # fmt: skip


def worked(id, minutes, person="joss", day=DAY, after=0):
    return {
        "kind": "work-time", "id": id, "at": MAY + after, "day": day, "person": person, "what": "sewing",
        "minutes": minutes,
    }  # fmt: skip


def told(facts, received=None, voids=None, dearest=600, records=None):
    """Ask in every order of arrival; all but sales are a helper's, received as they happened unless told."""
    received = {fact["id"]: fact["at"] for fact in facts if fact["kind"] != "sale"} | (received or {})
    answers = []
    for arrived in permutations(facts):
        rows = doubtful(list(arrived), received, voids or {}, dearest, records or {})
        answers.append({row["fact"]: (row["doubt"], row["of"]) for row in rows})
    assert all(answer == answers[0] for answer in answers)
    return answers[0]


def test_a_void_is_told_where_it_is_far_from_its_sale_or_came_long_after_it():
    assert told([SALE, void(FAR_FROM_IT_MS)]) == {}
    assert told([SALE, void(FAR_FROM_IT_MS + 1)]) == {"v": ("late", "s")}
    # a clock set back makes it no nearer
    assert told([SALE, void(-FAR_FROM_IT_MS - 1)]) == {"v": ("late", "s")}
    assert told([SALE, void(5)], {"v": MAY + RECEIVED_LATE_MS}) == {}
    assert told([SALE, void(5)], {"v": MAY + RECEIVED_LATE_MS + 1}) == {"v": ("late", "s")}
    # a sale that is not here yet is waited for
    assert told([void(FAR_FROM_IT_MS * 9)]) == {}


def test_of_whatever_else_is_undone_the_same_holds():
    back = refund("r", 600)
    undone = void(FAR_FROM_IT_MS + 2000, of="r", kind="refund-void", link="refund")
    assert told([SALE, back, undone], voids={"r": True}) == {"v": ("late", "r")}


def test_a_batchs_result_that_a_helper_voids_long_after_is_told():
    result = made("r", 24)
    assert told([result, void(FAR_FROM_IT_MS, of="r", kind="batch-void", link="result")]) == {}
    late = void(FAR_FROM_IT_MS + 1, of="r", kind="batch-void", link="result")
    assert told([result, late]) == {"v": ("late", "r")}


def test_a_refund_is_told_where_no_more_of_its_sale_is_left():
    assert told([SALE, refund("a", 700), refund("b", 500, after=2000)]) == {}
    assert told([SALE, refund("a", 700), refund("b", 501, after=2000)]) == {"b": ("beyond_sale", "s")}
    # what was undone leaves room again
    assert told([SALE, refund("a", 700), refund("b", 501, after=2000)], voids={"a": True}) == {}
    assert told([refund("a", 1)]) == {"a": ("sale_unknown", "s")}


def test_money_back_for_a_sale_that_is_void_is_told():
    facts = [SALE, refund("a", 700), void(2000)]
    assert told(facts, voids={"s": True}) == {"a": ("beyond_sale", "s")}
    assert told(facts, voids={"s": LEFT_OUT}) == {"a": ("beyond_sale", "s")}
    # of both undone nothing is left to tell
    assert told(facts, voids={"s": True, "a": True}) == {}


def test_a_refund_without_a_sale_is_told_beyond_two_of_the_dearest():
    assert told([refund("a", 1200, None)]) == {}
    assert told([refund("a", 1201, None)]) == {"a": ("no_sale", None)}
    assert told([refund("a", 1, None)], dearest=0) == {"a": ("no_sale", None)}


SEWN = {"size": named("s"), "cloth": named("c"), "quantity": 24}
BATCH = {"batch": {"b": {"number": "9", "lines": [SEWN]}}}


def test_more_made_than_a_batch_has_is_told_of_the_result_that_goes_beyond():
    assert told([made("r", 20, 4)], records=BATCH) == {}
    assert told([made("r", 20, 5)], records=BATCH) == {"r": ("beyond_batch", "b")}
    both = [made("r", 20), made("t", 5, after=1000)]
    assert told(both, records=BATCH) == {"t": ("beyond_batch", "b")}
    [row] = doubtful(both, {"t": MAY}, {}, 600, BATCH)
    assert (row["given"], row["limit"]) == (25, 24)
    # what never happened leaves room again, and of other batches nobody knows
    assert told(both, voids={"r": True}, records=BATCH) == {}
    assert told([made("r", 99, batch="elsewhere")], records=BATCH) == {}
    # an owner's takes from the batch, too, and is not told
    assert [
        row["fact"] for row in doubtful([made("r", 25), made("t", 1, after=1)], {"t": MAY}, {}, 600, BATCH)
    ] == ["t"]


def test_more_hours_than_a_person_has_in_a_day_are_told():
    whole = MOST_MINUTES_A_DAY
    assert told([worked("a", whole)]) == {}
    assert told([worked("a", whole), worked("b", 1, after=1000)]) == {"b": ("beyond_day", None)}
    assert told([worked("a", whole), worked("b", 60, "imke")]) == {}
    # of nobody said nobody knows that it was one
    assert told([worked("a", whole, None), worked("b", 60, None, after=1000)]) == {}
    assert told([worked("a", whole + 1, None)]) == {"a": ("beyond_day", None)}
    assert told([worked("a", whole), worked("b", 60, day="2026-05-03")]) == {}
    assert told([worked("a", whole), worked("b", 1, after=1000)], voids={"a": LEFT_OUT}) == {}
    [row] = doubtful([worked("a", whole + 30)], {"a": MAY}, {}, 600, {})
    assert (row["given"], row["limit"]) == (whole + 30, 16 * 60)


def test_what_an_owner_made_or_left_out_is_not_told():
    facts = [SALE, void(FAR_FROM_IT_MS + 1), refund("a", 5000)]
    assert doubtful(facts, {}, {}, 600, {}) == []
    assert told(facts, voids={"v": LEFT_OUT, "a": LEFT_OUT}) == {}
    # an owner's refunds take from the sale, too
    [row] = doubtful([SALE, refund("a", 1200), refund("b", 1, after=2000)], {"b": MAY}, {}, 600, {})
    assert (row["fact"], row["doubt"]) == ("b", "beyond_sale")


def test_what_cannot_be_read_stops_nothing():
    assert told([SALE, void(FAR_FROM_IT_MS + 1), refund("a", "many"), {"kind": 5, "id": "x", "at": 1}]) == {
        "v": ("late", "s")
    }


def test_what_an_owner_found_right_is_told_no_more_and_still_counts():
    right = {"kind": "found-right", "id": "f", "at": MAY + 9000, "day": DAY, "fact": "b"}
    facts = [SALE, refund("a", 700), refund("b", 501, after=2000), right]
    assert told(facts) == {}
    assert told(facts, voids={"f": LEFT_OUT}) == {"b": ("beyond_sale", "s")}
    # what was found right leaves nothing for the next
    assert told([*facts, refund("c", 1, after=3000)]) == {"c": ("beyond_sale", "s")}
