"""A cut and its being taken back travel as facts do, in any order; the tables are made again the same."""

import pytest

from backend.core.making.waiting import waiting_strips
from backend.store import writing
from backend.sync.rebuild import rebuild
from tests.phones import uuid7
from tests.tables import tables_of

DAY = "2026-05-02"


def a_cut(phone, cloth, size, quantity):
    return phone.fact("cut", {
        "day": DAY, "cloth": cloth, "length": 880.0, "lines": [{"size": size, "quantity": quantity}],
        "offcuts": [uuid7()],
    })  # fmt: skip


def waiting_of(changes):
    """Ask the core what waits, of changes as a phone pulls them."""
    return waiting_strips(
        [change["fields"] | {name: change[name] for name in ("kind", "id", "at")} for change in changes],
        {},
        {},
    )


@pytest.mark.parametrize("void_first", [False, True])
def test_a_cut_taken_back_by_the_other_phone_is_gone_for_both(owner, helper, business, void_first):
    cloth, size = uuid7(), uuid7()
    cut, other = a_cut(owner, cloth, size, 24), a_cut(owner, cloth, size, 6)
    void = helper.fact("cut-void", {"day": DAY, "cut": cut["id"]})
    steps = [(owner, [cut, other]), (helper, [void])]
    for phone, changes in reversed(steps) if void_first else steps:
        told = phone.exchange(changes)["results"]
        assert {result["status"] for result in told} == {"accepted"}
    # said again by the other phone too, it is taken back once
    again = owner.fact("cut-void", {"day": DAY, "cut": cut["id"], "reason": "another plan"})
    assert owner.exchange([again, again])["results"][0]["status"] == "accepted"
    left = [{"cloth": cloth, "size": size, "quantity": 6}]
    assert waiting_of(owner.pull_all()[0]) == waiting_of(helper.pull_all()[0]) == left
    before = tables_of(business)
    assert (len(before["cut"]), len(before["cut_void"])) == (2, 2)
    with writing() as connection:
        rebuild(connection, business)
    assert tables_of(business) == before


def test_a_cut_from_before_offcuts_were_told_has_none(owner):
    fields = {"day": DAY, "cloth": uuid7(), "length": 880.0, "lines": [{"size": uuid7(), "quantity": 6}]}
    owner.exchange([owner.fact("cut", fields)])
    [row] = owner.ask("GET", "/cuts").get_json()["records"]
    assert row["offcuts"] == []
