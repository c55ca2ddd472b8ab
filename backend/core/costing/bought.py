"""What was bought of a material, as a piece takes it: area of cloth, length, or pieces a pack is for."""

from .cloth_used import width_of


def purchases_of(recorded, kind, id):
    """List the purchases of a material that stand, the earliest first.

    Cloth is told in mm² as it can be cut, elastic and thread in mm, another supply in pieces;
    what was paid, less the tax that comes back.
    Takes: kind, of cloth, elastic, thread and supply; id, the record's.
    Returns: [{"at", "quantity", "cost", "purchase", "day"}], without those whose quantity is not known.
    """
    found = [purchase for purchase in recorded.of("purchase") if purchase[kind] == id]
    rows = [
        {
            "at": purchase["at"],
            "quantity": _quantity(recorded.record(kind, id), kind, purchase),
            "cost": purchase["amount"] - purchase["tax"],
            "purchase": purchase["id"],
            "day": purchase["day"],
        }
        for purchase in found
    ]
    return [row for row in rows if row["quantity"]]


def _quantity(record, kind, purchase):
    if record is None:
        return 0
    if kind == "cloth":
        width = width_of(record)
        if width is None or record["shrink_length"] is None or not purchase["length"]:
            return 0
        return purchase["length"] * (1 - record["shrink_length"] / 100) * width
    if kind == "elastic" and purchase["length"]:
        return purchase["length"]
    one = {"elastic": "roll_length", "thread": "length", "supply": "lasts"}[kind]
    return (purchase["quantity"] or 0) * (record[one] or 0)
