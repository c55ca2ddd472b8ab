"""Counts, and moves between places."""

from ..counting.naming import count_name
from ..numbers.calendar import day_of
from ..numbers.named_ids import named_id


def count(things, place, number, clock, name, stock, reasons):
    """Count all of a place, a tray for each size, and close the count.

    Takes: number, the day's; name, which count of the day it is; stock,
    {product: pieces seen}; reasons, {product: why it is not what was expected}.
    """
    day = day_of(number)
    session = named_id(things.business, count_name(place, day, name))
    for row, product in enumerate(things.products):
        seen = {"session": session, "place": place, "box_label": product.size + " tray"}
        seen.update({"product": product.id, "quantity": stock[product.id]})
        things.imke.fact("count-line", things.clock(number, clock, 10 * row), day, seen)
    told = [
        {"product": product.id, "reason": reasons[product.id]}
        for product in things.products
        if product.id in reasons
    ]
    end = things.clock(number, clock, 10 * len(things.products))
    close = {"session": session, "place": place, "scope": "all", "reasons": told}
    things.imke.fact("count-close", end, day, close)


def move(things, number, clock, source, target, pieces):
    """Move pieces, {product: how many}, from one place's stock to another's: (id, {product: pieces}) each."""
    (from_id, from_stock), (to_id, to_stock) = source, target
    for row, product in enumerate(things.products):
        quantity = pieces[product.id]
        if quantity:
            link = {"from": from_id, "to": to_id, "product": product.id, "quantity": quantity}
            things.imke.fact("move", things.clock(number, clock, 2 * row), day_of(number), link)
            from_stock[product.id] -= quantity
            to_stock[product.id] += quantity
