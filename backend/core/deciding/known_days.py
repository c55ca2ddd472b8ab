"""From the days as they are given to the rows that are learnt from, or every bad field."""

from ..declaring.errors import Problems, problem
from .two_ways import Row

MOST_ROWS = 2000
SHORTEST = 0.01  # hours: who sold a piece was there that long


def refuse_bad_days(given):
    """Refuse days and products whose fields do not go together. Raises: Problems."""
    problems = _twice([row["product"] for row in given["products"]], "products")
    count = 0
    for index, day in enumerate(given["days"]):
        path = "days." + str(index) + ".rows"
        count += len(day["rows"])
        problems += _twice([row["product"] for row in day["rows"]], path)
        for number, row in enumerate(day["rows"]):
            problems += _bad_hours(day, row, path + "." + str(number) + ".hours")
    if count > MOST_ROWS:
        problems.append(problem("days", "rows", count, MOST_ROWS, "list"))
    if problems:
        raise Problems(problems)


def _twice(names, path):
    problems, known = [], {}
    for index, name in enumerate(names):
        if name in known:
            problems.append(problem(path + "." + str(index) + ".product", "named_twice", name))
        known[name] = True
    return problems


def _bad_hours(day, row, field):
    hours = row["hours"]
    if hours is None:
        return []
    if hours > day["hours"]:
        return [problem(field, "highest", hours, day["hours"], "number")]
    if row["sold"] and hours < SHORTEST:
        return [problem(field, "lowest", hours, SHORTEST, "number")]
    return []


def rows_of(days, products):
    """Turn days into rows (two_ways.Row) of the products that are asked about.

    Takes: products, {name: number}. Returns: (rows, how many are of other products).
    """
    rows, others = [], 0
    for number, day in enumerate(days):
        for row in day["rows"]:
            if row["product"] not in products:
                others += 1
                continue
            hours = day["hours"] if row["hours"] is None else row["hours"]
            left = day["hours"] - hours
            rows.append(Row(number, products[row["product"]], row["sold"], hours, left, row["asked"]))
    return rows, others


def any_sold(rows):
    """Say whether a piece was sold, without which there is nothing to learn from."""
    return len([row for row in rows if row.sold]) > 0
