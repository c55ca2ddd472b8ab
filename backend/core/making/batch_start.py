"""What a batch can be started from: strips that wait and that no open batch has."""

from .lines_left import lines_left, of_batch

# what nobody named is alike for all
NOT_SAID = "not said"


def free_strips(waiting, sewing, results, products):
    """Leave out of the strips that wait those of batches that are open.

    Takes: waiting, [{"cloth", "size", "quantity"}]; sewing, batches that are open,
    [{"id", "lines": [{"cloth", "size", "product", "quantity"}]}]; results, what was made of these
    already, and products, as `lines_left` takes them.
    Returns: [{"cloth", "size", "quantity", "claimed"}] in the order of waiting, without what is all
    claimed; claimed, how many of these strips open batches have.
    Example: free_strips([{"cloth": "c", "size": "s", "quantity": 5}], [], [], {})[0]["claimed"] == 0
    """
    claimed = {}
    for batch in sewing:
        for line in lines_left(batch.get("lines") or [], of_batch(batch.get("id"), results), products):
            key = (line["cloth"], line["size"])
            claimed[key] = claimed.get(key, 0) + line["quantity"]
    rows = []
    for strip in waiting:
        taken = claimed.get((strip["cloth"], strip["size"]), 0)
        if strip["quantity"] > taken:
            rows.append({
                "cloth": strip["cloth"],
                "size": strip["size"],
                "quantity": strip["quantity"] - taken,
                "claimed": taken,
            })  # fmt: skip
    return rows


def next_number(sewing):
    """Number the next batch: one above the highest number that is one.

    Takes: sewing, batches, [{"number"}], finished and archived ones too.
    Example: next_number([{"number": "9"}, {"number": "12"}, {"number": "Anna's"}]) == "13"
    """
    highest = 0
    for batch in sewing:
        text = batch.get("number") or ""
        if text and len(text) < 10 and not [digit for digit in text if digit not in "0123456789"]:
            highest = max(highest, int(text))
    number = highest + 1
    return str(number)


def set_ups(sewing, last):
    """Say what `batch-order` is asked for the batches that are open.

    Takes: sewing, [{"id", "needle", "bobbin", "method", "lines", "needed"}], ids or None; last, the
    batch that the machine was set up for last, None where nobody knows.
    Returns: the input of `batch-order`, each batch called by its id.
    """
    given = {"batches": [_set_up(batch) for batch in sewing]}
    for row, batch in zip(given["batches"], sewing):
        row["name"] = batch["id"]
        if batch.get("needed"):
            row["day"] = batch["needed"]
    if last is not None:
        given["at_start"] = _set_up(last)
    return given


def _set_up(batch):
    cloths = []
    for line in batch.get("lines") or []:
        if line.get("cloth") not in cloths:
            cloths.append(line.get("cloth"))
    return {
        "needle": batch.get("needle") or NOT_SAID,
        "bobbin": batch.get("bobbin") or batch.get("needle") or NOT_SAID,
        "method": batch.get("method") or NOT_SAID,
        # a machine is not set up for a cloth that comes with others
        "cloth": (cloths[0] or "") if len(cloths) == 1 else "",
    }
