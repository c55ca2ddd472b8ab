"""What demo_fixtures/ says of the invented maker and her year: for the server's demo, and for phones."""

import json
from pathlib import Path

FOLDER = Path(__file__).parent.parent / "demo_fixtures"


def read_all(folder=FOLDER):
    """Read all tables of the fixtures, as {name: rows}."""
    return {file.stem: json.loads(file.read_text(encoding="utf-8")) for file in sorted(folder.glob("*.json"))}
