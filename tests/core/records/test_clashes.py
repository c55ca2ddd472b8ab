"""Fields that two phones changed without knowing of each other."""

from backend.core.records.merging import clashes

MINE, THEIRS = "0192f8a0-0000-7000-8000-00000000000a", "0192f8a0-0000-7000-8000-00000000000b"


def edit(ms, device, **fields):
    stamp = f"{ms:013}-0000-{device}"
    return {"kind": "product", "record": "r", "stamp": stamp, "fields": fields}


def held(ms, device, **fields):
    return {"product/r": {name: [fields[name], f"{ms:013}-0000-{device}"] for name in fields}}


def test_of_two_edits_of_one_field_the_earlier_one_is_told():
    assert clashes({}, [edit(1, MINE, price=600)], [edit(2, THEIRS, price=650)]) == {
        "product/r": {"price": 600}
    }
    assert clashes({}, [edit(3, MINE, price=600)], [edit(2, THEIRS, price=650)]) == {
        "product/r": {"price": 650}
    }


def test_edits_of_different_fields_and_of_the_same_mind_do_not_clash():
    assert clashes({}, [edit(1, MINE, price=600)], [edit(2, THEIRS, group="Grand")]) == {}
    assert clashes({}, [edit(1, MINE, price=600)], [edit(2, THEIRS, price=600)]) == {}


def test_an_edit_that_comes_after_a_later_one_of_another_phone_clashes():
    assert clashes(held(5, MINE, price=600), [], [edit(2, THEIRS, price=650)]) == {
        "product/r": {"price": 650}
    }
    # the same phone's own earlier edit is no news, nor is one that follows what was seen
    assert clashes(held(5, THEIRS, price=600), [], [edit(2, THEIRS, price=650)]) == {}
    assert clashes(held(1, MINE, price=600), [], [edit(2, THEIRS, price=650)]) == {}
