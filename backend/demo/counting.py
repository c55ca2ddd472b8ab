"""Counts, and moves between places."""

import uuid

from ..core.counting.naming import count_name
from .days import at


def count(things, phone, place, day, clock, name, stock, reasons):
    """Count all of a place, a tray for each size, and close the count.

    Takes: name, which count of the day it is; stock, {product: pieces seen};
    reasons, {product: why it is not what was expected}.
    """
    session = str(uuid.uuid5(uuid.UUID(things.business), count_name(place, str(day), name)))
    for number, product in enumerate(things.products):
        phone.fact(
            "count-line", at(day, clock, 10 * number), day, session=session, place=place,
            box_label=f"{product.size} tray", product=product.id, quantity=stock[product.id],
        )  # fmt: skip
    told = [{"product": product, "reason": reason} for product, reason in reasons.items()]
    end = at(day, clock, 10 * len(things.products))
    phone.fact("count-close", end, day, session=session, place=place, scope="all", reasons=told)


def move(things, phone, day, clock, source, target, pieces):
    """Move pieces, {product: how many}, from one place's stock to another's."""
    (from_id, from_stock), (to_id, to_stock) = source, target
    for number, product in enumerate(things.products):
        quantity = pieces[product.id]
        if quantity:
            link = {"from": from_id, "to": to_id, "product": product.id, "quantity": quantity}
            phone.fact("move", at(day, clock, 2 * number), day, **link)
            from_stock[product.id] -= quantity
            to_stock[product.id] += quantity
