"""Ids from names, against Python's own."""

import uuid

from backend.core.numbers.named_ids import named_id


def test_a_name_has_the_id_that_the_standard_gives_it():
    # RFC 9562, appendix A.4
    assert named_id(str(uuid.NAMESPACE_DNS), "www.example.com") == "2ed6657d-e927-568b-95e1-2665a8aea6a2"


def test_names_of_any_length_have_the_ids_that_python_makes():
    for length in range(0, 140):
        space, name = uuid.UUID(int=length << 100 | 77), "quay 2026-03-14"[: length % 15] + "x" * length
        assert named_id(str(space), name) == str(uuid.uuid5(space, name))
