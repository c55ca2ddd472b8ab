"""Bodies are bounded, typed and parsed before anything looks at them."""

import gzip
import json

import pytest

from backend.core.declaring.reading import MOST_BYTES, MOST_DEPTH


def padded(size):
    """Make a good body of exactly this many bytes."""
    body = json.dumps({"loop": 170})
    return (body + " " * (size - len(body))).encode()


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b'{"loop": }', b"loop=165", b"{'loop': 1}", b"[1,]", b"nul", b"\xef\xbb\xbf{}", b"{} {}"],
)
def test_what_is_not_json_is_refused(send, is_problem, body):
    assert is_problem(send(body), 400)["detail"] == "the body is not JSON"


@pytest.mark.parametrize(
    "body", [b"\xff\xfe", b'{"loop": "\xc3"}', b'{"\xed\xa0\x80": 1}', "{}".encode("utf-16")]
)
def test_what_is_not_utf_8_is_refused(send, is_problem, body):
    is_problem(send(body), 400)


def test_json_nested_too_deep_is_refused_before_it_is_parsed(send, is_problem):
    for opened, closed in (("[", "]"), ('{"a":', "}")):
        allowed = opened * MOST_DEPTH + "1" + closed * MOST_DEPTH
        assert send(allowed).status_code == 422
        told = is_problem(send(opened * (MOST_DEPTH + 1) + "1" + closed * (MOST_DEPTH + 1)), 400)
        assert told["detail"] == f"JSON may be nested at most {MOST_DEPTH} deep"
    is_problem(send("[" * 100000), 400)


def test_a_whole_number_without_end_is_refused(send, is_problem):
    is_problem(send('{"loop": ' + "9" * 100000 + "}"), 400)


def test_a_body_of_the_largest_size_is_taken_and_one_byte_more_is_not(send, is_problem):
    assert send(padded(MOST_BYTES)).status_code == 200
    told = is_problem(send(padded(MOST_BYTES + 1)), 413)
    assert str(MOST_BYTES) in told["detail"]
    is_problem(send(padded(MOST_BYTES * 4)), 413)


@pytest.mark.parametrize("level", [0, 9])
def test_a_packed_body_counts_unpacked(send, is_problem, level):
    packed = gzip.compress(padded(MOST_BYTES), level)
    assert send(packed, Content_Encoding="gzip").status_code == 200
    packed = gzip.compress(padded(MOST_BYTES + 1), level)
    is_problem(send(packed, Content_Encoding="gzip"), 413)


def test_a_small_body_that_unpacks_to_a_huge_one_is_refused(send, is_problem):
    packed = gzip.compress(b" " * 200_000_000, 9)
    assert len(packed) < MOST_BYTES
    is_problem(send(packed, Content_Encoding="gzip"), 413)


@pytest.mark.parametrize("spoil", [lambda b: b"{}", lambda b: b[:-9], lambda b: b[:12] + b"\0\1\2" + b[15:]])
def test_what_is_not_gzip_is_refused(send, is_problem, spoil):
    packed = gzip.compress(b'{"loop": 165, "end_seam": 12}')
    is_problem(send(spoil(packed), Content_Encoding="gzip"), 400)


@pytest.mark.parametrize("encoding", ["br", "deflate", "gzip, gzip", "zip", "\xff"])
def test_an_unknown_packing_is_refused(send, is_problem, encoding):
    is_problem(send(b"{}", Content_Encoding=encoding), 415)


def test_a_plain_body_may_say_so(send):
    assert send(b"{}", Content_Encoding="identity").status_code == 200
    assert send(gzip.compress(b"{}"), Content_Encoding="GZIP").status_code == 200


@pytest.mark.parametrize(
    "kind", [None, "", "text/plain", "application/x-www-form-urlencoded", "text/json", "json"]
)
def test_a_body_of_another_type_is_refused(send, is_problem, kind):
    is_problem(send(b"{}", content_type=kind), 415)


def test_the_type_may_name_its_charset(send):
    assert send(b"{}", content_type="application/json; charset=utf-8").status_code == 200
