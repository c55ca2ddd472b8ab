"""The invented maker of demo_fixtures/, and how she types what she knows."""

import json

from .server import ROOT

FOLDER = ROOT / "demo_fixtures"


def read_records(name):
    """Read a table of records: {name: fields in base units}."""
    records = json.loads((FOLDER / name).read_text(encoding="utf-8"))
    return {record["name"]: record for record in records}


SIZES = read_records("sizes.json")
CLOTHS = read_records("cloths.json")

# what she changes in an empty form, in the units its fields start with
SIZES_TYPED = {
    "Petite": {"loop": "140", "fullness": "2.6", "tube_width": "30"},
    "Everyday": {"loop": "165", "fullness": "2.8", "tube_width": "45"},
    "Grand": {"loop": "180", "fullness": "3.2", "tube_width": "60"},
}
CLOTHS_TYPED = {
    "Seagrass lawn": {
        "bolt_width": "140", "shrink_length": "3", "shrink_width": "2", "mixed": True, "price": "8.90",
    },
    "Harbour check": {
        "bolt_width": "150", "shrink_length": "4", "shrink_width": "3", "repeat": "40", "price": "11.50",
    },
    "Fog gauze": {
        "bolt_width": "132", "shrink_length": "6", "shrink_width": "4", "shop_increment": "1/8",
        "price": "10.20", "price_length": "1",
    },
}  # fmt: skip
# but for these: the gauze is sold by the yard
CLOTHS_UNITS = {"Fog gauze": {"shop_increment": "yd", "price_length": "yd"}}


def size_given(name):
    """A size's fields as the calculators take them."""
    return {field: value for field, value in SIZES[name].items() if field != "name"}


def cloth_given(name):
    """A cloth's fields as the calculators take them."""
    return {field: value for field, value in CLOTHS[name].items() if field not in ("name", "tear")}
