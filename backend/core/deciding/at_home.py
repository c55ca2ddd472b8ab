"""What is there already: pieces at every place and in open batches, cloth and elastic at home."""

from ..making.batch_time import TRAY
from ..making.batch_timing import finish_time
from ..making.lines_left import lines_left, of_batch


def pieces_of(stock):
    """Add up the pieces of each product at every place, below nothing at one taken for none.

    Takes: stock, [{"product", "quantity"}], sizes alone without a product.
    Example: pieces_of([{"product": "a", "quantity": 3}, {"product": "a", "quantity": -1}]) == {"a": 3}
    """
    told = {}
    for row in stock:
        if row["product"]:
            told[row["product"]] = told.get(row["product"], 0) + max(0, row["quantity"])
    return told


def unmade(recorded, batches):
    """List batches with the lines that nothing came of yet: [{"lines"}]."""
    products = {id: recorded.record("product", id) for id in recorded.ids("product")}
    results = recorded.of("batch-result")
    return [{"lines": lines_left(batch["lines"], of_batch(id, results), products)} for id, batch in batches]


def minutes_left(recorded, batches, before):
    """Add up the minutes that are left to do of batches. Takes: before, the latest laps of all batches."""
    minutes = 0.0
    for id, batch in batches:
        method = recorded.record("method", batch["method"])
        laps = [fact for fact in recorded.of("batch-step") if fact["batch"] == id]
        others = [fact for fact in before if fact["batch"] != id]
        steps = method["steps"] if method else []
        minutes += finish_time(batch, steps, laps, others, TRAY, 0)["minutes"]
    return minutes


def areas_at_home(recorded, waiting, each):
    """Add up the cloth at home in mm², by cloth: remnants, and strips that wait.

    Takes: waiting, [{"cloth", "size", "quantity"}], in no open batch; each, {(size, cloth): mm² that a piece
    takes of its cloth}.
    """
    told = {}
    for id in recorded.ids("remnant"):
        remnant = recorded.record("remnant", id)
        if not remnant["archived"]:
            told[remnant["cloth"]] = told.get(remnant["cloth"], 0.0) + remnant["width"] * remnant["length"]
    for row in waiting:
        area = each.get((row["size"], row["cloth"]), 0.0) * row["quantity"]
        told[row["cloth"]] = told.get(row["cloth"], 0.0) + area
    return told


def elastic_at_home(recorded, elastics):
    """Add up the elastic at home in mm, over those that are named."""
    length = 0.0
    for id in recorded.ids("elastic"):
        elastic = recorded.record("elastic", id)
        if id in elastics and not elastic["archived"]:
            length += elastic["rolls"] * elastic["roll_length"] + elastic["opened"]
    return length
