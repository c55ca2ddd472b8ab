"""What is known of the pieces at a place: a number, none left, or that nobody knows."""

from .held import parts_of_held
from .keys import parts_of


def pieces_at(held, place):
    """Tell how many pieces of each product, or size alone, are at a place.

    Nobody knows of what was never counted there and left at least as often as it
    came. Of what never came or left, none is there once anything was counted.
    Takes: held, as `fold_stock` returns it; place, its id.
    Returns: {"pieces": {product or size: number, below nothing where more left
    than were there, None where nobody knows}, "others": 0 or None, of all else}.
    Raises: Problems naming each `held.name` that is none.
    """
    stock, pieces, counted = parts_of_held(held)["stock"], {}, False
    for key in stock:
        at_place, product, size = parts_of(key)
        if at_place == place:
            quantity, counted_at, _, _ = stock[key]
            counted = counted or counted_at is not None
            pieces[product or size] = None if counted_at is None and quantity <= 0 else quantity
    return {"pieces": pieces, "others": 0 if counted else None}
