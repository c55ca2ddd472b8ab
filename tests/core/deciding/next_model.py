"""What to sew next by HiGHS, in the exact form, with worths from SciPy: it knows nothing of the search."""

from random import Random

import highspy
from scipy.stats import nbinom, poisson

AS_POISSON = 10000  # a size of demand from which it is taken as Poisson's


def random_bench(seed):
    """Make a bench as makers have it: one to four bookings, colours, cloths, and too few hours."""
    random = Random(f"bench {seed}")
    bookings = random.randint(1, 4)
    colours = [
        {"name": f"c{n}", "minutes": random.choice((5, 10, 20, 40))} for n in range(random.randint(1, 5))
    ]
    cloths = [{"name": f"l{n}"} for n in range(random.randint(1, 4))]
    products = [
        _product(random, number, bookings, colours, cloths) for number in range(random.randint(3, 16))
    ]
    wanted = sum(row["minutes"] for row in products) * random.choice((0.5, 1, 2))
    asked = {
        "bookings": [
            {"name": f"b{n}", "minutes": round(wanted * random.uniform(0.3, 1.5) / bookings, 1)}
            for n in range(bookings)
        ],
        "products": products,
        "colours": colours,
        "cloths": cloths,
        "wage": random.choice((0, 0, 900, 1200)),
    }
    for cloth in cloths:
        if random.random() < 0.4:
            cloth["area"] = random.randint(1, 8) * 700000
    if random.random() < 0.3:
        asked["elastic"] = random.randint(5, 40) * 2500
    return asked


def _product(random, number, bookings, colours, cloths):
    batch = random.choice((6, 12, 12, 24))
    gain = random.randint(150, 800)
    return {
        "product": f"p{number}",
        "stock": random.choice((0, random.randint(0, 20))),
        "batch": batch,
        "most": random.randint(1, 5),
        "minutes": round(batch * random.uniform(4, 9), 1),
        "colour": random.choice(colours)["name"],
        "cloth": random.choice(cloths)["name"],
        "area": batch * random.choice((31000, 53020, 83440)),
        "elastic": batch * random.choice((190, 235)),
        "left": random.choice((0, -20, gain // 3)),
        "demand": [
            {"mean": round(random.uniform(0, 25), 1), "size": random.choice((None, 2, 8.5)),
             "gain": gain - random.choice((0, 19, 60))}
            for _ in range(bookings)
        ],
    }  # fmt: skip


def worths_of(row, wage):
    """Work out what each batch is worth, for each booking it may be ready for."""
    mean = variance = 0.0
    reached = [lambda count: 0.0]
    for demand in row["demand"]:
        mean += demand["mean"]
        variance += demand["mean"] + (demand["mean"] ** 2 / demand["size"] if demand.get("size") else 0)
        reached.append(_law(mean, variance))
    left = row.get("left", 0)
    return [
        [
            sum(
                left
                + sum(
                    (demand["gain"] - left) * (reached[at + 1](count) - reached[at](count))
                    for at, demand in enumerate(row["demand"])
                    if at >= ready
                )
                for count in range(
                    row["stock"] + b * row["batch"] + 1, row["stock"] + (b + 1) * row["batch"] + 1
                )
            )
            - row["minutes"] * wage / 60
            for ready in range(len(row["demand"]))
        ]
        for b in range(row.get("most", 5))
    ]


def _law(mean, variance):
    size = mean * mean / (variance - mean) if variance > mean else AS_POISSON
    if size >= AS_POISSON:
        return lambda count: poisson.sf(count - 1, mean)
    return lambda count: nbinom.sf(count - 1, size, size / (size + mean))


def most_by_highs(asked):
    """Solve the exact form. Returns: the best worth."""
    return _solved(asked)[0]


def most_batches(asked):
    """Find how many batches fit at most."""
    return round(_solved(asked, count=True)[0])


def _solved(asked, count=False):
    model = highspy.Highs()
    model.silent()
    model.setOptionValue("mip_rel_gap", 0.0)
    model.setOptionValue("mip_abs_gap", 1e-6)
    bookings = range(len(asked["bookings"]))
    minutes = {row["name"]: row["minutes"] for row in asked["colours"]}
    opened = {(name, at): model.addBinary() for name in minutes for at in bookings}
    made = []
    for row in asked["products"]:
        for worths in worths_of(row, asked.get("wage", 0)):
            each = [model.addBinary(obj=-1 if count else -worth) for worth in worths]
            model.addConstr(sum(each) <= 1)
            for at, one in enumerate(each):
                if worths[at] <= 0:
                    model.addConstr(one <= 0)
                model.addConstr(one <= opened[row["colour"], at])
                made.append((row, at, one))
    room = 0
    for until in bookings:
        room += asked["bookings"][until]["minutes"]
        due = [one * row["minutes"] for row, at, one in made if at <= until]
        changes = [one * minutes[name] for (name, at), one in opened.items() if at <= until]
        model.addConstr(sum(due) + sum(changes) <= room)
    for cloth in asked["cloths"]:
        if cloth.get("area") is not None:
            used = [one * (row["area"] / 1000) for row, _, one in made if row["cloth"] == cloth["name"]]
            if used:
                model.addConstr(sum(used) <= cloth["area"] / 1000)
    if asked.get("elastic") is not None:
        model.addConstr(sum(one * row["elastic"] for row, _, one in made) <= asked["elastic"])
    model.run()
    assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return -model.getObjectiveValue(), model
