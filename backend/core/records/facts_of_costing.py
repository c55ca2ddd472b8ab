"""What it costs: material bought, money spent, and what prices and wages are from which day on."""

from ..declaring.errors import problem
from ..declaring.spec import NEEDED, Field
from .kinds import DAY, MOST_PIECES, NOTHING, Cash, Kind, link, money, words

MATERIALS = ("cloth", "elastic", "thread", "supply")
# what is bought by the length, and what by the roll, spool or pack; elastic is bought either way
BY_LENGTH, BY_COUNT = ("cloth", "elastic"), ("elastic", "thread", "supply")


def _one_material(fields):
    named = [name for name in MATERIALS if fields[name] is not None]
    if len(named) != 1:
        return [problem(named[1] if named else MATERIALS[0], "one_material")]
    measured = [name for name in ("length", "quantity") if fields[name] is not None]
    allowed = [name for name, of in (("length", BY_LENGTH), ("quantity", BY_COUNT)) if named[0] in of]
    if len(measured) == 1 and measured[0] in allowed:
        return []
    return [problem(allowed[0] if not measured else measured[-1], "length_or_quantity")]


def _tax_within(fields):
    if fields["tax"] <= fields["amount"]:
        return []
    return [problem("tax", "highest", fields["tax"], fields["amount"], "money")]


def _a_purchase(fields):
    return _one_material(fields) + _tax_within(fields)


FACTS_OF_COSTING = [
    Kind("purchase", True, "Material that was bought", [
        DAY,
        link("cloth", "The cloth, where it is one"),
        link("elastic", "The elastic, where it is one"),
        link("thread", "The thread, where it is one"),
        link("supply", "What else it is"),
        Field("length", "length", "Length bought, of cloth and elastic", None, lowest=1,
              highest=10000000, unit="m"),
        Field("quantity", "count", "Rolls, spools or packs bought", None, lowest=1, highest=MOST_PIECES),
        money("amount", "What was paid, tax included"),
        money("tax", "Tax in it that comes back", default=0),
        link("box", "The cash box it was paid from"),
        link("booking", "The market it was for"),
        link("line", "The line of the shopping list"),
    ], helper=NOTHING, also=_a_purchase, cash=(Cash("taken_out"),)),
    Kind("purchase-void", True, "A purchase that is void", [
        DAY,
        link("purchase", "The purchase", NEEDED),
        words("reason", "Why"),
    ], helper=NOTHING, voids="purchase"),
    Kind("expense", True, "Money spent on no material", [
        DAY,
        link("booking", "The market it was for"),
        Field("what", "text", "What for", most=80),
        money("amount", "How much", lowest=1),
        link("box", "The cash box it was paid from"),
    ], helper=NOTHING, cash=(Cash("taken_out"),)),
    Kind("expense-void", True, "An expense that is void", [
        DAY,
        link("expense", "The expense", NEEDED),
        words("reason", "Why"),
    ], helper=NOTHING, voids="expense"),
    Kind("price-set", True, "A product's price from a day on", [
        DAY,
        link("product", "The product", NEEDED),
        money("price", "Price of one"),
        Field("from", "day", "The first day it is asked"),
    ]),
    Kind("wage-set", True, "What an hour's work is paid from a day on", [
        DAY,
        link("person", "Whose; none for whoever has no wage of their own"),
        money("wage", "Pay for an hour"),
        Field("from", "day", "The first day of it"),
    ], helper=NOTHING),
]  # fmt: skip
