"""A phone with the scenario's sizes, cloths, list and a signature, put there by its own actions."""

from .scenario import CLOTHS, SIZES

KEEP = """async ([kind, fact, records]) => {
  const { describeNew, state } = await import('/data/actions.js');
  for (const fields of records) await (fact ? state : describeNew)(kind, fields);
}"""
LIST = [
    {"name": "Seagrass lawn", "for_what": "Everyday", "quantity": 60, "length_to_buy": 2600, "cost": 2314},
    {"name": "Fog gauze", "for_what": "Grand", "quantity": 24, "length_to_buy": 2057.4, "cost": 2295},
    {"name": "Elastic", "for_what": "Everyday 241.6 mm a piece"},
    {"name": "Thread, sea green", "bought": True},
]
SIGNED = {
    "tool": "rotary cutter",
    "cloth": "lawn",
    "person": "Imke",
    "day": "2026-03-14",
    "ticked": [{"item": "close-shoes"}],
    "skipped": "Joss holds the ruler",
}


def stock(screen):
    """Keep the scenario's records on a phone; returns its screen."""
    screen.open("/settings")
    for kind, fact, records in (
        ("piece", False, list(SIZES.values())),
        ("cloth", False, list(CLOTHS.values())),
        ("list-line", False, LIST),
        ("checklist-signature", True, [SIGNED]),
    ):
        screen.page.evaluate(KEEP, [kind, fact, records])
    return screen


def stock_phone(phone):
    """Keep them on a phone: the ground of many tests."""
    stock(phone.screen)
