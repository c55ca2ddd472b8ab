"""The batches that are there: those that stand, and those that are sewn now."""


def standing_batches(recorded):
    """List the batches that are not archived, open and finished."""
    batches = [recorded.record("batch", id) for id in recorded.ids("batch")]
    return [batch for batch in batches if not batch["archived"]]


def open_batches(recorded):
    """List the batches that are sewn, each with its id: (id, record)."""
    # of years of batches most are finished
    ids = recorded.ids("batch", lambda given: given.get("state") in (None, "open"))
    found = [(id, recorded.record("batch", id)) for id in ids]
    return [(id, batch) for id, batch in found if not batch["archived"]]
