"""Mixes from a remnant to cut apart: what was asked, and what was found."""

from random import Random

from hypothesis import strategies as some

from backend.core.catalogue import answer

FEW_STEPS = 20000

LENGTH = some.integers(20, 400) | some.integers(8, 120).map(lambda eighths: eighths * 3.175)
SIZE = some.fixed_dictionaries(
    {"length": LENGTH, "width": LENGTH, "value": some.integers(1, 900)},
    optional={"quantity": some.integers(0, 6)},
)
ASKED = some.fixed_dictionaries({
    "width": some.integers(50, 900) | some.floats(50, 900), "length": some.integers(50, 700),
    "sizes": some.lists(SIZE, min_size=1, max_size=5), "rotate": some.booleans(),
    "stages": some.sampled_from([2, 3, "any"]),
})  # fmt: skip


def found(asked):
    """Answer what is asked: (asked, result)."""
    return asked, answer("remnant-best-mix", {**asked, "steps": FEW_STEPS})["result"]


MIX = ASKED.map(found)


def small_mix(number, **more):
    """Make one of few millimetres from its number, where much is alike: (asked, result)."""
    random = Random(f"cut {number}")
    sizes = []
    for row in range(random.randint(1, 4)):
        size = {"name": f"S{row}", "length": random.randint(1, 8), "width": random.randint(1, 6)}
        size["value"] = random.randint(1, 40)
        if random.random() < 0.5:
            size["quantity"] = random.randint(0, 5)
        sizes.append(size)
    asked = {
        "width": random.randint(3, 20), "length": random.randint(3, 20), "sizes": sizes,
        "rotate": random.random() < 0.5, "stages": random.choice([2, 3, "any"]),
    }  # fmt: skip
    return found({**asked, **more})


IDS = [f"0190163d-8694-739b-aea5-966c26f8{place:04x}" for place in range(12)]
CLOTH, REMNANT, SIZES, ELASTICS, PRODUCTS = IDS[0], IDS[1], IDS[2:6], IDS[6:8], IDS[8:]


def random_records(number):
    """Make arguments of `remnant_mix` from a number: records, choices, now and then a slip."""
    random = Random(f"records {number}")

    def maybe(value):
        return random.choice((value, value, None))

    def lines(most):
        return [
            {"size": random.choice(SIZES), "cloth": random.choice(IDS[:2]), "quantity": random.randint(1, 30)}
            for _ in range(random.randint(0, most))
        ]

    cloth = {"name": "Lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
    rest = {"name": "Rest", "cloth": CLOTH, "length": random.randint(80, 900)}
    return {
        "remnants": {REMNANT: {**rest, "width": random.uniform(80, 1500)}},
        "cloths": {CLOTH: {**cloth, "mixed": random.random() < 0.5}},
        "sizes": {id: _size(random, maybe(random.choice(ELASTICS))) for id in SIZES},
        "products": {id: _product(random, maybe(CLOTH)) for id in PRODUCTS},
        "elastics": {
            id: {"name": "Braid", "roll_length": random.randint(5000, 50000), "price": maybe(790)}
            for id in ELASTICS[: random.randint(0, 2)]
        },
        "wanted": lines(4),
        "waiting": lines(3),
        "ways": random.choice(({}, {CLOTH: {"nap": True}}, {CLOTH: {"stretch": "along", "layers": 6}})),
        "choices": {
            "measure": maybe(random.choice(("money", "area", "strips"))),
            "lying": maybe(random.choice(("either", "across", "along", "about"))),
            "many": maybe(random.choice(("fit", "wanted", "typed"))),
            "left_out": random.sample(SIZES, random.randint(0, 2)),
            "worths": {random.choice(SIZES): random.randint(0, 2000)},
            "quantities": {random.choice(SIZES): random.randint(0, 9)},
        },
        "unit": random.choice(("mm", "in")),
    }


def _size(random, elastic):
    size = {"name": "A size", "elastic": elastic, "loop": random.uniform(90, 250)}
    return {**size, "fullness": random.uniform(1.5, 3.5), "tube_width": random.randint(20, 80)}


def _product(random, cloth):
    return {"size": random.choice(SIZES), "cloth": cloth, "price": random.randint(1, 2000), "group": "All"}
