"""What demo_fixtures/ says of the invented maker and her year."""

import json
from pathlib import Path

FOLDER = Path(__file__).parent.parent.parent / "demo_fixtures"


def read(name):
    """Read one table of the fixtures."""
    return json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))


class Fixtures:
    """All tables, read once."""

    def __init__(self):
        self.sizes = read("sizes")
        self.cloths = read("cloths")
        self.cutting = read("cutting")
        self.elastic = read("elastic")
        self.markets = read("markets")
        self.prices = read("prices")
        self.stall = read("stall")
        self.year = read("year")
