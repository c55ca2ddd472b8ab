"""Random good changes of every kind, from the kinds' own declarations."""

from random import Random

from backend.core.declaring.errors import Problems
from backend.core.declaring.spec import DECIMAL, NEEDED, WHOLE
from backend.core.records.checking import KINDS, check

# the first is of RFC 9562 A.6
FEW_IDS = [f"017f22e2-79b0-7cc3-98c4-dc0c0c07398{digit}" for digit in "f01234"]
TEXTS = ("", "Lawn", "Grün – \U0001f9f5", '=1+"2"', "it's; a\nline", " x ")


def random_value(random, field):
    """Make a value that a field allows."""
    if field.choices:
        return random.choice(field.choices)
    if field.quantity in WHOLE:
        return random.choice(
            [field.lowest, field.highest, random.randint(field.lowest, min(field.highest, 50_000))]
        )
    if field.quantity in DECIMAL:
        return random.choice([field.lowest, field.highest, random.uniform(field.lowest, field.highest)])
    if field.quantity == "flag":
        return random.random() < 0.5
    if field.quantity == "id":
        return random.choice(FEW_IDS)
    if field.quantity == "list":
        count = random.randint(field.fewest or 0, min(field.most, 3))
        row = (
            (lambda: random_value(random, field.item))
            if field.item
            else (lambda: random_fields(random, field.fields, True))
        )
        return [row() for _ in range(count)]
    return random_text(random, field)


def random_text(random, field):
    shaped = {
        "date": f"2026-05-{random.randint(1, 28):02}",
        "time": "09:30",
        "recurrence": "FREQ=WEEKLY;BYDAY=SA",
    }
    if field.shape:
        return shaped[field.shape]
    text = random.choice(TEXTS)[: field.most]
    return "x" if field.default == NEEDED and not text.strip() else text


def random_fields(random, fields, whole):
    """Make values of fields; those that may be left out are, now and then."""
    made = {}
    for field in fields:
        if (field.default == NEEDED and whole) or random.random() < 0.6:
            made[field.name] = random_value(random, field)
    return made


def random_good_fields(random, kind, whole):
    """Make fields that a kind's own check lets pass."""
    while True:
        made = random_fields(random, kind.fields, whole)
        try:
            check(kind.name, made, whole)
        except Problems:
            continue
        if made:
            return made


def random_changes(seed, phones, count):
    """Make changes of every kind, by several phones, with edits of few records and stamps out of order."""
    random = Random(seed)
    made = []
    for index in range(count):
        kind, phone = KINDS[index % len(KINDS)], random.choice(phones)
        fields = random_good_fields(random, kind, kind.fact or random.random() < 0.3)
        at = 1_770_000_000_000 + random.randint(0, 40)
        more = {} if kind.fact else {"record": random.choice(FEW_IDS[:3])}
        made.append(phone.fact(kind.name, fields, at, **more))
    return made
