"""Seeded random plans for cutting-layout: small ones for solvers, any with every rule, realistic ones."""

from random import Random


def small_plan(number):
    """Make a plan small enough for a model that knows nothing of rows: bolts, remnants, exact quantities."""
    random = Random(f"plan {number}")
    cloths = [{"name": "bolt", "width": random.randint(40, 120), "shop_increment": 1}]
    for remnant in range(random.choice([0, 0, 1, 2])):
        size = {"width": random.randint(20, 90), "length": random.randint(10, 60)}
        cloths.append({"name": f"remnant {remnant}", **size})
    strips = []
    for strip in range(random.randint(1, 3)):
        size = {"length": random.randint(8, 38), "width": random.randint(4, 20)}
        way = random.choice(["best", "best", "best", "across", "along"])
        strips.append({"name": f"strip {strip}", **size, "quantity": random.randint(1, 5), "direction": way})
    if random.random() < 0.2:
        strips[0]["cloths"] = ["bolt"]
    return {"cloths": cloths, "strips": strips}


def remnants_plan(number):
    """Make a small plan of remnants alone, which do not hold all strips."""
    random = Random(f"remnants plan {number}")
    cloths = [
        {"name": f"remnant {cloth}", "width": random.randint(300, 900), "length": random.randint(200, 700)}
        for cloth in range(random.randint(1, 2))
    ]
    strips = [
        {
            "name": f"strip {strip}", "length": random.randint(120, 290), "width": random.randint(60, 119),
            "quantity": random.randint(3, 8),
        }
        for strip in range(random.randint(2, 4))
    ]  # fmt: skip
    return {"cloths": cloths, "strips": strips}


def bolts_plan(number):
    """Make a small plan of two or three bolts, of which every step costs whole cents."""
    random = Random(f"bolts plan {number}")
    cloths = []
    for bolt in range(random.choice([2, 2, 3])):
        step = random.choice([100, 100, 250, 500, 1000])
        cloths.append({
            "name": f"bolt {bolt}", "width": random.choice([900, 1120, 1400, 1500]), "selvedge": 10,
            "squaring": random.choice([0, 50]), "shrink_length": random.choice([0, 0, 4]),
            "shop_increment": step, "minimum_cut": random.choice([0, 0, 0, 300, 500, 1000]),
            "price": random.randint(20, 50) * 40,
        })  # fmt: skip
    if random.random() < 0.3:
        size = {"width": random.randint(400, 900), "length": random.randint(150, 500)}
        cloths.append({"name": "remnant", **size})
    strips = []
    for strip in range(random.randint(1, 3)):
        size = {"length": random.randint(250, 620), "width": random.randint(60, 190)}
        strips.append({"name": f"strip {strip}", **size, "quantity": random.randint(2, 12)})
    if random.random() < 0.3:
        strips[0]["cloths"] = [cloth["name"] for cloth in random.sample(cloths[:2], 1)]
    return {"cloths": cloths, "strips": strips}


def unpriced_plan(number):
    """Make a small plan of two or three bolts without prices, of high least cuts, and of strips of one."""
    random = Random(f"unpriced plan {number}")
    cloths = []
    for bolt in range(random.choice([2, 2, 3])):
        step = random.choice([100, 250, 500])
        cloths.append({
            "name": f"bolt {bolt}", "width": random.choice([900, 1100, 1120, 1400]),
            "squaring": random.choice([0, 50]), "shrink_length": random.choice([0, 0, 4]),
            "shop_increment": step, "minimum_cut": random.choice([0, 2, 4, 8]) * step,
        })  # fmt: skip
    strips = []
    for strip in range(random.choice([1, 2, 2, 3])):
        size = {"length": random.randint(150, 600), "width": random.choice([80, 110, 195])}
        strips.append({"name": f"strip {strip}", **size, "quantity": random.randint(1, 8)})
        if random.random() < 0.3:
            strips[-1]["cloths"] = [random.choice(cloths)["name"]]
    return {"cloths": cloths, "strips": strips}


def nests_plan(number):
    """Make a plan of one bolt, of some strips that may lie over each other in a higher row."""
    random = Random(f"nests {number}")
    bolt = {
        "name": "bolt", "width": random.choice([1120, 1400, 1500, random.uniform(900, 1600)]),
        "selvedge": random.choice([10, 12.7]), "squaring": 50,
        "shop_increment": random.choice([100, 250, 500, 500]),
    }  # fmt: skip
    strips = [
        {
            "name": str(strip), "length": random.randint(250, 620), "width": random.uniform(60, 190),
            "quantity": random.randint(4, 45),
            "direction": random.choice(["best", "best", "across", "along"]),
        }
        for strip in range(random.choice([2, 2, 3]))
    ]  # fmt: skip
    return {"cloths": [bolt], "strips": strips, "stages": 3}


def fine_plan():
    """Make a plan in parts so fine that what one bolt alone would leave out costs very much."""
    cloths = [{"name": "narrow", "width": 10, "repeat": 131.6464104}, {"name": "wide", "width": 366.7}]
    strips = [
        {"name": "many", "length": 643, "width": 34.4, "quantity": 781},
        {"name": "narrow", "length": 6326.9, "width": 1, "quantity": 1},
        {"name": "long", "length": 10000, "width": 161.4, "quantity": 45},
    ]
    return {"cloths": cloths, "strips": strips}


def any_plan(number):
    """Make a plan that any rule may be about."""
    random = Random(f"any plan {number}")
    cloths = [_any_cloth(random, index) for index in range(random.randint(1, 4))]
    names = [cloth["name"] for cloth in cloths]
    strips = []
    for index in range(random.randint(1, 5)):
        strip = {
            "name": f"strip {index}",
            "length": random.choice([random.randint(200, 700), random.randint(16, 200) * 3.175]),
            "width": random.choice([random.randint(60, 200), random.randint(16, 60) * 3.175]),
            "quantity": random.randint(1, 30),
            "direction": random.choice(["best", "best", "across", "along"]),
        }
        if random.random() < 0.3:
            strip["cloths"] = random.sample(names, random.randint(1, len(names)))
        strips.append(strip)
    return {"cloths": cloths, "strips": strips, "tear_loss": random.choice([0, 5, 7.5])}


def _any_cloth(random, index):
    cloth = {"name": f"cloth {index}", "width": random.randint(600, 1600)}
    if random.random() < 0.5:
        cloth["length"] = random.randint(200, 1500)
    choices = {
        "selvedge": [10, 12.7], "shrink_length": [3, 6], "shrink_width": [2, 4], "squaring": [50],
        "nap": [True], "stretch": ["across", "along"], "repeat": [40, 63.5], "use_first": [True],
        "fold": [2, 4], "layers": [3, 8], "tear": [True],
        "shop_increment": [10, 114.3, 500], "minimum_cut": [250, 500], "price": [890, 1640],
    }  # fmt: skip
    for name, values in choices.items():
        if random.random() < 0.25:
            cloth[name] = random.choice(values)
    return cloth


def realistic_plan(number):
    """Make a plan of a maker: 2 to 6 sizes, a bolt of 110 to 160 cm, 24 to 240 pieces, 0 to 5 remnants."""
    random = Random(f"realistic plan {number}")
    bolt = {
        "name": "bolt", "width": random.choice([1100, 1120, 1320, 1400, 1450, 1500, 1550, 1600]),
        "selvedge": 10, "squaring": 50,
        "shrink_length": random.choice([0, 3, 4, 6]), "shrink_width": random.choice([0, 2, 3]),
    }  # fmt: skip
    cloths = [bolt]
    for remnant in range(random.randint(0, 5)):
        size = {"width": random.randint(300, 1400), "length": random.randint(150, 900)}
        cloths.append({"name": f"remnant {remnant}", **size})
    sizes = random.randint(2, 6)
    pieces = random.randint(24, 240)
    strips = []
    for size in range(sizes):
        loop, tube = random.randint(130, 200), random.randint(25, 65)
        length, width = round(loop * random.uniform(2.0, 3.4)) + 20, 2 * tube + 20
        share = pieces // sizes + (size < pieces % sizes)
        strips.append({"name": f"size {size}", "length": length, "width": width, "quantity": share})
    return {"cloths": cloths, "strips": strips}


def tiny_plan(number):
    """Make a plan of so few strips that all ways to cut them can be tried."""
    random = Random(f"tiny plan {number}")
    cloths = [{"name": "bolt", "width": random.randint(30, 60), "shop_increment": 1}]
    if random.random() < 0.4:
        size = {"width": random.randint(15, 40), "length": random.randint(10, 40)}
        cloths.append({"name": "remnant", **size})
    strips = []
    for strip in range(random.randint(1, 3)):
        way = random.choice(["best", "best", "across", "along"])
        size = {"length": random.randint(12, 30), "width": random.randint(4, 12)}
        strips.append({"name": f"strip {strip}", **size, "quantity": random.randint(1, 2), "direction": way})
    strips[0]["quantity"] += random.randint(0, 2)
    return {"cloths": cloths, "strips": strips}
