"""What a record without a name of its own is called, as it is declared."""

import pytest

from backend.core.records.checking import KINDS, kind_named
from backend.core.records.naming import name_of

THERE = {("piece", "s"): {"name": "Everyday"}, ("cloth", "c"): {"name": "Lawn"}, ("cloth", "d"): {"name": ""}}


def find(kind, id):
    return THERE.get((kind, id))


@pytest.mark.parametrize(
    ("record", "name"),
    [
        ({"name": "Moss", "size": "s", "cloth": "c"}, "Moss"),
        ({"name": "", "size": "s", "cloth": "c"}, "Everyday Lawn"),
        ({"name": None, "size": "s", "cloth": None}, "Everyday"),
        ({"name": "", "size": "not here", "cloth": "c"}, "Lawn"),
        ({"name": "", "size": "not here", "cloth": "d"}, "Product"),
    ],
)
def test_a_product_is_called_after_its_size_and_cloth(record, name):
    assert name_of(kind_named("product"), record, find) == name


def test_what_is_named_after_others_says_where_each_link_leads():
    named = [kind for kind in KINDS if kind.named_after]
    assert [kind.name for kind in named] == ["product"]
    for kind in named:
        assert all(link["kind"] in {one.name for one in KINDS} for link in kind.describe_naming()["after"])
