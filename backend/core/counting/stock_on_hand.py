"""stock-on-hand: what is where, folded from what happened, now or at any past time."""

from ..declaring.spec import Calculator, Field
from ..numbers.ordering import in_order
from ..records.looks import MOST_ROWS
from ..records.reader import once, refuse_other_than_facts
from ..records.uses import STOCK
from .flags import flags
from .fold import fold
from .held import parts_of_held
from .keys import parts_of

MOST_FACTS = 10000

FACT = Field(
    "fact",
    "object",
    "A record of a kind of fact: its fields, with kind, id and at (UTC ms)",
    example={
        "kind": "move",
        "id": "017f22e2-79b0-7cc3-98c4-dc0c0c07398f",
        "at": 1645557742000,
        "from": "Home shelf",
        "to": "Stall",
        "product": "Everyday, Seagrass lawn",
        "quantity": 6,
    },
)

INPUTS = [
    Field("facts", "list", "What happened, in any order", item=FACT, most=MOST_FACTS),
    Field("at", "instant", "Leave out what happened later; none for now", None),
]

ON_HAND = [
    Field("place", "text", "The place"),
    Field("product", "text", "The product", None),
    Field("size", "text", "The size alone, where the cloth was not said", None),
    Field("quantity", "count", "Pieces: below nothing where more left than were there"),
    Field("counted_at", "instant", "When it was last counted", None),
]

FLAG = [
    Field("flag", "choice", "What is worth a look", choices=("late_line", "close_differs", "over_refund")),
    Field("fact", "text", "The line, close or refund"),
    Field("of", "text", "The count or sale"),
]

OUTPUTS = [
    Field(
        "on_hand",
        "list",
        "Stock by place and product, sizes alone last",
        fields=ON_HAND,
        most=2 * MOST_FACTS * MOST_ROWS,
    ),
    Field("flags", "list", "What stands all the same", fields=FLAG, most=MOST_FACTS),
]


def work(given):
    """Fold facts into what is on hand at each place.

    Facts that move no stock pass by. Of each product at each place, the latest
    closed count says how many there were, and what happened after it is added.
    Of several closes of one count the last stands, by (at, id); one before it that
    said otherwise is flagged. What was sold as a size alone is counted apart, below nothing, until a count
    that covers the size; a product never counted begins with none.
    Returns: on_hand, sorted by place and product in the order of their
    characters' numbers, products that have run out with 0 included.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    facts = given["facts"]
    refuse_other_than_facts(facts, STOCK)
    held = fold(facts, given["at"])
    wanted = [fact for fact in once(facts) if given["at"] is None or fact["at"] <= given["at"]]
    return {"on_hand": list_stock(held), "flags": flags(wanted)}, []


def list_stock(held):
    """List what is held by place and product, sizes alone last.

    Takes: held, as `fold_stock` returns it.
    Raises: Problems naming each `held.name` that is none.
    """
    stock, rows = parts_of_held(held)["stock"], []
    for key in stock:
        place, product, size = parts_of(key)
        pieces, at, _, _ = stock[key]
        rows.append({"place": place, "product": product, "size": size, "quantity": pieces, "counted_at": at})
    return in_order(rows, lambda row: (row["place"], row["size"] or "", row["product"] or ""))


CALCULATOR = Calculator(
    "stock-on-hand",
    "Stock",
    "Stock by place, folded from what happened.",
    INPUTS,
    OUTPUTS,
    work,
    main=("on_hand",),
)
