"""What makes a random input one that a calculator can answer, where its fields must agree with each other.

`random_inputs` makes each field for itself; a calculator that takes either of two, or numbers in an order,
would hardly ever get an answer of it.
"""

# of the inputs that have no bad field, how many are made to agree
SHARE = 0.9


def made_sensible(calculator, given, random):
    """Change an input in place so that its fields agree, most of the time."""
    change = CHANGES.get(calculator)
    if change and random.random() < SHARE:
        change(given, random)


def _one_way_to_a_price(given, random):
    ways = [name for name in ("margin", "markup", "price") if given.get(name) is not None]
    kept = random.choice(ways or ["margin"])
    given.setdefault(kept, random.randint(0, 95))
    for name in ways:
        if name != kept:
            given.pop(name)


def _spools_of_each_colour(given, random):
    spools = given["spools"] or [{"colour": "Fog", "length": 1000000}]
    given["spools"] = spools
    for row in given["colours"]:
        for name in row.keys() & {"needle", "bobbin"}:
            row[name] = random.choice(spools)["colour"]
    for seam in given["seams"]:
        if seam.get("stitch") == "other" and seam.get("sample") is None:
            seam["stitch"] = "304"
    for spool in spools:
        if isinstance(spool.get("at_home"), dict):
            held = spool["at_home"]
            held["empty"], held["grams"] = sorted((held["empty"], held["grams"]))


def _sensible_batch(given, random):
    for step in given["steps"]:
        keep = random.choice(("minutes", "observed"))
        if not step.get("observed") or keep == "minutes":
            step.pop("observed", None)
            step["minutes"] = step["minutes"] if step.get("minutes") is not None else 1.5
        else:
            step.pop("minutes", None)
            for lap in step["observed"][:1]:
                lap["keep"] = True
        if (step.get("who") or 0) > (given.get("people") or 1):
            step["who"] = given.get("people") or 1
    if given.get("history"):
        given.pop("learning", None)
    edges = sorted(random.sample(range(1_790_000_000, 1_790_400_000), 2 * len(given.get("windows") or [])))
    for number, window in enumerate(given.get("windows") or []):
        window["from"], window["to"] = edges[2 * number] * 1000, edges[2 * number + 1] * 1000
    given["tray"] = max(given.get("tray") or 12, (given.get("quantity") or 48) // 100 + 1)


def _sensible_order(given, random):
    batches = given["batches"][:12]
    given["batches"] = batches
    for number, batch in enumerate(batches):
        batch["name"] = f"{number} {batch['name']}"[:80]
    if given.get("set_ups"):
        names = ["", *(batch["name"] for batch in batches)]
        given["set_ups"] = [
            {"from": one, "to": other, "minutes": random.choice((0, 1, 2.5, random.uniform(0, 9)))}
            for one in names
            for other in names[1:]
            if one != other
        ]


def _sensible_methods(given, random):
    for method in given["methods"]:
        for row in method["rows"]:
            row["good"] = min(row["good"], row["made"])


def _sensible_box(given, random):
    given["products"] = _different(given["products"])
    known = [row["product"] for row in given["products"]]
    for day in given.get("days") or []:
        for row in day["rows"]:
            if random.random() < 0.8:
                row["product"] = random.choice(known)
            if row.get("hours") is not None:
                row["hours"] = max(0.01, min(row["hours"], day["hours"]))
        day["rows"] = _different(day["rows"])
        while sum(len(one["rows"]) for one in given["days"]) > 2000:
            day["rows"].pop()
    if given.get("guess") is None:
        given["guess"] = random.randint(0, 200)


def _different(rows):
    return list({row["product"]: row for row in rows}.values())


def _sensible_bench(given, random):
    for rows, key in (("bookings", "name"), ("products", "product"), ("colours", "name"), ("cloths", "name")):
        if not given[rows]:
            given[rows] = [{"name": "white"} if rows == "cloths" else {"name": "white", "minutes": 5}]
        for number, row in enumerate(given[rows]):
            row[key] = f"{number} {row[key]}"[:80]
    for row in given["products"]:
        row["colour"] = random.choice(given["colours"])["name"]
        row["cloth"] = random.choice(given["cloths"])["name"]
        row["demand"] = [dict(random.choice(row["demand"])) for _ in given["bookings"]]
        for demand in row["demand"]:
            demand["mean"] = min(demand["mean"], 500 / len(row["demand"]))
    # whether a plan is proven is left to the tests that are about it
    given["steps"] = random.randint(0, 300)


CHANGES = {
    "batch-time": _sensible_batch,
    "batch-order": _sensible_order,
    "method-compare": _sensible_methods,
    "make-next": _sensible_bench,
    "thread": _spools_of_each_colour,
    "price": _one_way_to_a_price,
    "bring-to-market": _sensible_box,
}
