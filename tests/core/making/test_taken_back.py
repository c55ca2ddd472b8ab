"""Cuts that are void, and what becomes of remnants; all cases worked by hand."""

from backend.core.making.taken_back import cuts_taken_back


def cut(id, remnant=None, *offcuts):
    return {"id": id, "remnant": remnant, "offcuts": list(offcuts)}


def told(come_back=(), put_away=()):
    return {"come_back": list(come_back), "put_away": list(put_away)}


def test_the_remnant_is_there_again_and_what_was_left_of_it_is_not():
    cuts = [cut("a", "basket", "left", "right"), cut("b", None, "end")]
    assert cuts_taken_back(cuts, [], ["a"]) == told(["basket"], ["left", "right"])
    assert cuts_taken_back(cuts, [], ["a", "b"]) == told(["basket"], ["left", "right", "end"])


def test_an_offcut_that_was_cut_since_stays_as_it_is():
    cuts = [cut("a", "basket", "left", "right"), cut("b", "left", "rest")]
    assert cuts_taken_back(cuts, [], ["a"]) == told(["basket"], ["right"])


def test_an_offcut_whose_own_cut_never_happened_goes_too():
    cuts = [cut("a", "basket", "left"), cut("b", "left", "rest")]
    assert cuts_taken_back(cuts, [{"cut": "b"}], ["a"]) == told(["basket"], ["left"])
    assert cuts_taken_back(cuts, [], ["b"]) == told(["left"], ["rest"])


def test_a_remnant_that_two_phones_cut_stays_used_up_until_neither_did():
    cuts = [cut("a", "basket"), cut("b", "basket")]
    assert cuts_taken_back(cuts, [], ["a"]) == told()
    assert cuts_taken_back(cuts, [{"cut": "a"}], ["b"]) == told(["basket"])
    assert cuts_taken_back(cuts, [], ["a", "b"]) == told(["basket"])


def test_nothing_follows_from_a_cut_that_is_not_here_yet():
    assert cuts_taken_back([cut("a", "basket")], [], ["b"]) == told()
