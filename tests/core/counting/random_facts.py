"""Facts at random, crowded so that much of it meets: for the fold, and for what reads it."""

PLACES, GOODS = ("home", "stall"), (("product", "E"), ("product", "G"), ("size", "E"))
SESSIONS = ("morning", "noon")
# what says that something never happened, and how it names that
UNDOING = {"void": "sale", "batch-void": "result"}


def history(random):
    """Make up to 16 facts, crowded: few goods and moments, so that much of it meets."""
    count = random.randint(0, 16)
    kinds = random.choices(
        (
            "sale",
            "void",
            "refund",
            "move",
            "set-aside",
            "count-line",
            "count-close",
            "batch-result",
            "batch-void",
        ),
        (6, 2, 1, 2, 1, 6, 3, 2, 1),
        k=count,
    )
    sales = [f"s{number}" for number in range(kinds.count("sale") + 1)]
    results = [f"r{number}" for number in range(kinds.count("batch-result") + 1)]
    names = {"sale": iter(sales), "batch-result": iter(results)}
    facts = []
    for number, kind in enumerate(kinds):
        # of one moment, ids before and after those of sales
        name = next(names[kind]) if kind in names else f"{random.choice('kx')}{number}"
        said = details(random, kind, sales, results)
        facts.append({"kind": kind, "id": name, "at": random.randint(0, 8), **said})
    random.shuffle(facts)
    return facts


def details(random, kind, sales, results):
    place = random.choices(PLACES, (1, 4))[0]
    if kind == "void":
        return {"sale": random.choice(sales)}
    if kind == "batch-void":
        return {"result": random.choice(results)}
    if kind == "batch-result":
        lines = [{**some_goods(random, 2), "made": 4, "good": random.randint(0, 4)} for _ in range(2)]
        return {"place": place, "batch": "b", "lines": lines}
    if kind == "move":
        ends = random.sample(PLACES, 2)
        return {"from": ends[0], "to": ends[1], "quantity": random.randint(1, 4), **some_goods(random, 2)}
    if kind == "set-aside":
        reason = random.choice(("spoilt", "given", "lost", "found"))
        return {"place": place, "reason": reason, "quantity": 1, **some_goods(random, 2)}
    if kind in ("sale", "refund"):
        made = {"place": place, "lines": sold(random), "goods": random.choice(("table", "spoilt"))}
        if kind == "refund":
            return {**made, "sale": random.choice(sales)}
        return {**made, "returned": sold(random)} if random.random() < 0.3 else made
    session = {"place": place, "session": random.choice(SESSIONS)}
    if kind == "count-line":
        box = random.choice(({}, {"box_label": ""}, {"box_label": "tray"}))
        return {**session, "quantity": random.randint(0, 9), **box, **some_goods(random)}
    return {
        **session,
        "scope": random.choice(("all", "list")),
        "listed": [some_goods(random) for _ in range(random.randint(0, 2))],
        "answers": [
            {"sale": random.choice(sales), "already_out": random.random() < 0.5, **some_goods(random)}
            for _ in range(random.randint(0, 4))
        ],
    }


def some_goods(random, kinds=3):
    name, value = random.choices(GOODS[:kinds], (4, 1, 2)[:kinds])[0]
    return {name: value}


def sold(random):
    return [{"quantity": random.randint(1, 4), **some_goods(random)} for _ in range(random.randint(0, 3))]
