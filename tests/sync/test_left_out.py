"""Facts that got past the check, and what owners leave out: on the server."""

import pytest

from backend import store
from backend.core.records.kinds import LEFT_OUT
from backend.store import takings
from backend.sync.rebuild import rebuild
from tests.bent import put_past_the_check
from tests.phones import SALE_DAY, now
from tests.tables import tables_of


def leave_out(phone, fact):
    return phone.fact(LEFT_OUT, {"day": SALE_DAY, "fact": fact["id"], "reason": ""})


def taken(business):
    with store.reading() as connection:
        return takings.by_day(connection, business)


def test_the_tables_are_made_again_though_a_fact_cannot_be_read(owner, helper):
    owner.exchange([owner.sale(), owner.sale(2)])
    before = tables_of(owner.business)
    bent = owner.sale()["fields"]
    with store.writing() as connection:
        put_past_the_check(connection, owner.business, helper.id, [
            ("sale", bent | {"payment": "voucher"}, now()),
            ("of-later", {"day": SALE_DAY}, now()),
        ])  # fmt: skip
    with store.writing() as connection:
        assert rebuild(connection, owner.business) == 4
    assert tables_of(owner.business) == before
    # it is handed on all the same: a later version may read it
    assert [change["kind"] for change in helper.exchange()["changes"]] == ["sale", "sale", "sale", "of-later"]


@pytest.mark.parametrize("first", ["void", "left out"])
def test_a_sale_stands_again_once_its_void_is_left_out(owner, helper, first):
    sale = helper.sale(2, 600)
    void = helper.fact("void", {"day": SALE_DAY, "sale": sale["id"]})
    out = leave_out(owner, void)
    helper.exchange([sale])
    for phone, change in ((helper, void), (owner, out))[:: 1 if first == "void" else -1]:
        assert phone.exchange([change])["results"][0]["status"] == "accepted"
    assert taken(owner.business) == [(SALE_DAY, "cash", 1, 1200, 0, 0)]
    assert owner.exchange([leave_out(owner, sale)])["results"][0]["status"] == "accepted"
    assert taken(owner.business) == [(SALE_DAY, "cash", 0, 0, 0, 0)] or taken(owner.business) == []


def test_a_helper_leaves_nothing_out(owner, helper):
    sale = owner.sale()
    owner.exchange([sale])
    [result] = helper.exchange([leave_out(helper, sale)])["results"]
    assert list(result["errors"]) == ["kind"]
