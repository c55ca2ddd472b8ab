"""The kinds of fact: what happened, never edited, answered only by another fact.

Here are those of stock and of a market day; `facts_of_making.py` and `facts_of_costing.py` have the rest.
"""

from ..declaring.errors import problem
from ..declaring.spec import NEEDED, Field
from ..safety.terms import CLOTHS, TOOLS
from .facts_of_costing import FACTS_OF_COSTING
from .facts_of_making import FACTS_OF_MAKING
from .kinds import (
    ANY_FACT,
    CASH_MOMENTS,
    DAY,
    DIRECTIONS,
    FOUND_RIGHT,
    GOODS,
    GOODS_END,
    LEFT_OUT,
    MOST_LINES,
    NOTHING,
    PAYMENTS,
    SET_ASIDE,
    Cash,
    Kind,
    Moves,
    Only,
    link,
    money,
    quantity,
    words,
)

MOST_KINDS_COUNTED = 500

SOLD = GOODS + [
    words("name", "What it was, where it is neither product nor size", 60),
    quantity("Pieces"),
    money("unit_price", "Price of one before offers and discounts"),
    money("total", "What the line came to, after offers and discounts"),
    words("reason", "Why it was cheaper than its price"),
]
RETURNED = GOODS + [quantity("Pieces")]
REFUNDED = GOODS + [
    words("name", "What it was, where it is neither product nor size", 60),
    quantity("Pieces"),
    money("total", "Money back for the line"),
]
OFFERS_USED = [
    link("offer", "The offer", NEEDED),
    Field("times", "count", "Times it was used", lowest=1),
    money("saving", "What it took off"),
]
COUNTED = [
    money("value", "Value of the note or coin", lowest=1),
    Field("count", "count", "How many of it"),
]
ANSWER = [
    link("sale", "A sale made while this was being counted", NEEDED),
] + GOODS + [
    Field("already_out", "flag", "Its pieces were gone when they were counted"),
]  # fmt: skip
IN_CASH = Only("payment", "cash")
TO_THE_TABLE = Only("goods", "table")
REASON_OF = GOODS + [words("reason", "Why the count differs from what was expected")]


def _other_place(fields):
    same = fields["from"] == fields["to"]
    return [problem("to", "same_place")] if same else []


def _adds_up(fields):
    counted = 0
    for row in fields["counted"]:
        counted += row["value"] * row["count"]
    if fields["counted"] and counted != fields["amount"]:
        return [problem("amount", "adds_up", fields["amount"], counted, "money")]
    return []


FACTS = [
    Kind("sale", True, "Goods for money", [
        DAY,
        link("booking", "The market it was at"),
        link("place", "Where the goods were", NEEDED),
        link("box", "The cash box it was paid into"),
        Field("lines", "list", "What was sold", fields=SOLD, most=MOST_LINES, fewest=1),
        Field("returned", "list", "What came back in an even swap", [], fields=RETURNED, most=MOST_LINES),
        Field("goods", "choice", "Where what came back went", "table", choices=GOODS_END),
        Field("offers", "list", "Offers used", [], fields=OFFERS_USED, most=12),
        money("off", "Taken off the whole basket", default=0),
        words("reason", "Why that discount"),
        money("amount", "Money taken: the lines' totals, rounded where cash is"),
        Field("payment", "choice", "How it was paid; none for an even swap", choices=PAYMENTS),
        money("tendered", "Cash handed over", default=None),
    ], helper="write", takings="taken",
        moves=(Moves("lines", out_of="place", worth="total"),
               Moves("returned", into="place", only=TO_THE_TABLE)),
        cash=(Cash("cash_sales", IN_CASH),)),
    Kind("void", True, "A sale that is void", [
        DAY,
        link("sale", "The sale", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="sale"),
    Kind("refund", True, "Money going back", [
        DAY,
        link("sale", "The sale, where it is known"),
        link("booking", "The market it was at"),
        link("place", "Where the goods came back to", NEEDED),
        link("box", "The cash box it was paid from"),
        Field("lines", "list", "What came back", fields=REFUNDED, most=MOST_LINES, fewest=1),
        money("amount", "Money given back"),
        Field("payment", "choice", "How it was given back", choices=PAYMENTS),
        Field("goods", "choice", "Where the goods went", choices=GOODS_END),
        words("reason", "Why"),
    ], helper="write", takings="given_back",
        moves=(Moves("lines", into="place", only=TO_THE_TABLE, worth="total"),),
        cash=(Cash("cash_refunds", IN_CASH),)),
    Kind("refund-void", True, "A refund that is void", [
        DAY,
        link("refund", "The refund", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="refund"),
    Kind("move", True, "Stock changing place", [
        DAY,
        link("from", "Where it was", NEEDED),
        link("to", "Where it is now", NEEDED),
        link("product", "The product", NEEDED),
        quantity("Pieces"),
    ], helper="write", also=_other_place, moves=(Moves(out_of="from", into="to"),)),
    Kind("set-aside", True, "Goods leaving without money, or found again", [
        DAY,
        link("place", "Where they were, or were found", NEEDED),
        link("product", "The product", NEEDED),
        quantity("Pieces"),
        Field("reason", "choice", "What became of them", choices=SET_ASIDE),
        words("note", "More about it"),
    ], helper="write",
        moves=(Moves(out_of="place", only=Only("reason", "spoilt", "given", "lost")),
               Moves(into="place", only=Only("reason", "found")))),
    Kind("set-aside-void", True, "Goods that never left without money", [
        DAY,
        link("set_aside", "What was said to have left", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="set_aside"),
    Kind("asked-for", True, "Somebody wanted it and there was none", [
        DAY,
        link("booking", "The market it was at"),
        link("place", "Where it was asked for", NEEDED),
    ] + GOODS, helper="write"),
    Kind("asked-for-void", True, "Something nobody asked for after all", [
        DAY,
        link("asked_for", "What was said to be asked for", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="asked_for"),
    Kind("count-line", True, "What a person saw at a place", [
        DAY,
        link("session", "The count it belongs to", NEEDED),
        link("place", "Where it was counted", NEEDED),
        words("box_label", "The tray or box; empty for what lies loose", 40),
    ] + GOODS + [
        quantity("Pieces seen", 0),
    ], helper="write", counts="goods"),
    Kind("count-close", True, "The end of a count", [
        DAY,
        link("session", "The count", NEEDED),
        link("place", "Where it was", NEEDED),
        Field("scope", "choice", "What was looked for: what is not seen of it is none",
              choices=("all", "list")),
        Field("listed", "list", "What was looked for, where it was a list", [], fields=GOODS,
              most=MOST_KINDS_COUNTED),
        Field("answers", "list", "Sales made while counting", [], fields=ANSWER, most=MOST_KINDS_COUNTED),
        Field("reasons", "list", "Why counts differ", [], fields=REASON_OF, most=MOST_KINDS_COUNTED),
    ], helper="write", counts="close"),
    Kind("cash-count", True, "The money in a cash box", [
        DAY,
        link("booking", "The market it is for"),
        link("box", "The cash box", NEEDED),
        Field("moment", "choice", "The float at the start, or the count at the end",
              choices=CASH_MOMENTS),
        money("amount", "Money in the box"),
        Field("counted", "list", "By note and coin", [], fields=COUNTED, most=40),
        words("reason", "Why it differs from what it should hold"),
    ], helper="write", also=_adds_up, counts="cash"),
    Kind("cash-movement", True, "Money put into a cash box or taken out of it", [
        DAY,
        link("booking", "The market it is for"),
        link("box", "The cash box", NEEDED),
        Field("direction", "choice", "Which way", choices=DIRECTIONS),
        money("amount", "How much", lowest=1),
        words("reason", "What for"),
    ], helper="write",
        cash=(Cash("paid_in", Only("direction", "paid in")),
              Cash("taken_out", Only("direction", "taken out")))),
    Kind(FOUND_RIGHT, True, "What a helper undid or gave back, that an owner found right", [
        DAY,
        link(ANY_FACT, "The fact that was looked at", NEEDED),
    ], helper=NOTHING),
    Kind(LEFT_OUT, True, "A fact that an owner leaves out: it counts for nothing", [
        DAY,
        link(ANY_FACT, "The fact, of whatever kind", NEEDED),
        words("reason", "Why"),
    ], voids=ANY_FACT),
    Kind("checklist-signature", True, "A safe-working checklist signed for the day", [
        Field("tool", "choice", "Tool it was for", choices=TOOLS),
        Field("cloth", "choice", "Cloth it was for", choices=CLOTHS),
        Field("person", "text", "Who signed", most=60),
        DAY,
        Field("ticked", "list", "Items ticked", fields=[Field("item", "text", "Item id")], most=80),
        Field("skipped", "text", "Why musts were left unticked", "", most=200),
    ], helper="write"),
] + FACTS_OF_MAKING + FACTS_OF_COSTING  # fmt: skip
