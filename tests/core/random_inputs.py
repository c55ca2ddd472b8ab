"""Seeded random inputs of a calculator, made from its declaration alone.

About 70 in 100 are within the limits and mostly of workshop size, 15 sit on a
limit, and 15 have bad fields, named beside them. All are plain JSON. Where fields
must agree with each other, `sensible.py` says how.
"""

from random import Random
from uuid import UUID

from backend.core.catalogue import calculator_named
from backend.core.declaring.reading import LARGEST
from backend.core.declaring.spec import NEEDED, WHOLE
from tests.core.sensible import made_sensible

TEXTS = (
    "Seagrass lawn",
    "Harbour check",
    "Nebelgaze Ü",
    "綿ローン",
    "🧵 thread",
    '"quoted"',
    "{given}",
    "a\nb",
    "x",
)
NO_NUMBERS = ("12", "", [], {}, True, False, [1], {"mm": 1})
NO_TEXTS = (7, 1.5, True, [], {}, ["lawn"])
NO_FLAGS = (0, 1, "true", "yes", [], {})
# as many as the body of a request has room for
MOST_OBJECTS = 500
MOST_STEPS = 50000
NO_OBJECTS = (7, "row", True, [])
NO_LISTS = ({}, "rows", 3, True)
SHAPED = {
    "id": lambda random: str(UUID(int=random.getrandbits(128))),
    "date": lambda random: (
        f"{random.randint(2000, 2199)}-{random.randint(1, 12):02}-{random.randint(1, 28):02}"
    ),
    "time": lambda random: f"{random.randint(0, 23):02}:{random.randint(0, 59):02}",
    "stamp": lambda random: (
        f"{random.randrange(10**13):013}-{random.randrange(10**4):04}-{UUID(int=random.getrandbits(128))}"
    ),
    "recurrence": lambda random: f"FREQ={random.choice(('DAILY', 'WEEKLY'))};COUNT={random.randint(1, 9)}",
}
UNREADABLE = ("\0", "a\ud800b", "\udfff")


def random_inputs(calculator, count, seed):
    """Make inputs for the calculator of this name: a list of JSON objects."""
    return [case["input"] for case in random_cases(calculator, count, seed)]


def random_cases(calculator, count, seed):
    """Make inputs with what they are: [{"input", "kind", "bad"}].

    `kind` is valid, boundary or bad; `bad` lists the paths of the fields that
    reading must name, no more and no fewer.
    """
    fields = calculator_named(calculator).inputs
    random = Random(f"{calculator} {seed}")
    return [_case(calculator, fields, random) for _ in range(count)]


def _case(calculator, fields, random):
    kind = random.choices(("valid", "boundary", "bad"), (70, 15, 15))[0]
    given = _object(fields, random, 0.0)
    if kind == "boundary":
        given = _object(fields, random, 0.4)
    made_sensible(calculator, given, random)
    bad = _spoil(fields, given, random) if kind == "bad" else []
    return {"input": given, "kind": kind, "bad": sorted(bad)}


def _object(fields, random, edge):
    given = {}
    for field in fields:
        if field.name == "steps" and field.quantity == "count":
            # how long to look is left to the tests that are about it
            given[field.name] = random.randint(field.lowest, min(field.highest, MOST_STEPS))
        elif field.default == NEEDED or random.random() < 0.6:
            given[field.name] = _value(field, random, edge)
        elif random.random() < 0.1:
            given[field.name] = None
    return given


def _value(field, random, edge):
    on_edge = random.random() < edge
    if field.quantity == "flag":
        return random.random() < 0.5
    if field.choices:
        return random.choice(field.choices)
    if field.quantity == "object" and field.fields:
        return _object(field.fields, random, edge)
    if field.instead and random.random() < 0.4:
        return _object(field.instead, random, edge)
    if field.quantity == "object":
        return {**field.example, "colour": random.choice(TEXTS)}
    if field.shape:
        return SHAPED[field.shape](random)
    if field.quantity == "text":
        return "n" * field.most if on_edge else random.choice(TEXTS)[: field.most]
    if field.quantity == "list":
        fewest = field.fewest or 0
        most = field.most if field.fields or field.item.quantity != "object" else MOST_OBJECTS
        rows = random.choice((fewest, most)) if on_edge else random.randint(fewest, min(field.most, 5))
        return [_row(field, random, edge) for _ in range(rows)]
    number = random.choice(_edges(field)) if on_edge else _number(field, random)
    return round(number) if field.quantity in WHOLE else number


def _edges(field):
    if field.quantity in WHOLE or field.lowest:
        return field.lowest, field.highest
    # nothing, and next to nothing
    return field.lowest, -0.0, 5e-324, 1e-9, field.highest


def _row(field, random, edge):
    return _value(field.item, random, edge) if field.item else _object(field.fields, random, edge)


def _number(field, random):
    usual = field.example
    if usual is None:
        usual = field.default if isinstance(field.default, int | float) else 0
    usual = usual or {"length": 50, "money": 1000, "percent": 5}.get(field.quantity, 3)
    size = random.choice((0.3, 1, 1, 1, 3)) * usual * random.uniform(0.5, 1.5)
    if random.random() < 0.05:
        size = random.uniform(field.lowest, field.highest)
    number = random.choice((round(size), round(size, 1), round(size, 3), round(size / 3.175) * 3.175, size))
    return min(max(number, field.lowest), field.highest)


def _spoil(fields, given, random):
    bad = []
    for field in random.sample(fields, min(len(fields), random.randint(1, 3))):
        bad += _spoil_field(field, given, random, "")
    if random.random() < 0.3 or not bad:
        name = random.choice(("colour", "Loop", "", "bolt width", "0", "__class__", "naïve"))
        given[name] = random.choice((1, None, "x", [], {}))
        bad.append(name)
    return bad


def _spoil_field(field, given, random, path):
    name = path + field.name
    if field.default == NEEDED and random.random() < 0.25:
        given.pop(field.name, None)
        if random.random() < 0.5:
            given[field.name] = None
        return [name]
    if field.quantity == "list" and random.random() < 0.7:
        return _spoil_row(field, given, random, name)
    if field.quantity == "object" and field.fields and random.random() < 0.7:
        given[field.name] = given.get(field.name) or _object(field.fields, random, 0.0)
        return _spoil_field(random.choice(field.fields), given[field.name], random, name + ".")
    given[field.name] = random.choice(_bad_values(field))
    return [name]


def _spoil_row(field, given, random, name):
    rows = given.get(field.name) or [_row(field, random, 0.0)]
    given[field.name] = rows
    index = random.randrange(len(rows))
    if field.item:
        rows[index] = random.choice(_bad_values(field.item))
        return [f"{name}.{index}"]
    if random.random() < 0.2:
        rows[index] = random.choice((None, 1, "row", []))
        return [f"{name}.{index}"]
    inner = random.choice(field.fields)
    return _spoil_field(inner, rows[index], random, f"{name}.{index}.")


def _bad_values(field):
    if field.quantity == "flag":
        return NO_FLAGS
    if field.quantity == "object":
        return NO_OBJECTS
    if field.quantity == "list":
        few = ([],) if field.fewest else ()
        return (*NO_LISTS, [{}] * (field.most + 1), *few)
    if field.shape:
        return (*NO_TEXTS, "not so", *UNREADABLE)
    if field.quantity == "text":
        return (*NO_TEXTS, "n" * (field.most + 1), *UNREADABLE)
    if field.quantity == "choice":
        return (*NO_TEXTS, "none of these", "", "x" * 200, *UNREADABLE)
    no_numbers = [value for value in NO_NUMBERS if not (field.instead and isinstance(value, dict))]
    beyond = (field.lowest - 1, field.highest + 1, -LARGEST, LARGEST + 1, 10**30, 1e300, -1e300)
    broken = (field.lowest + 0.5,) if field.quantity in WHOLE else ()
    return (*no_numbers, *beyond, *broken)
