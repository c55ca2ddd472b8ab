"""The kinds of fact: what happened, never edited, answered only by another fact."""

from ..errors import problem
from ..safety.terms import CLOTHS, TOOLS
from ..spec import NEEDED, Field
from .kinds import (
    CASH_MOMENTS,
    DAY,
    DIRECTIONS,
    GOODS,
    GOODS_END,
    PAYMENTS,
    SET_ASIDE,
    Kind,
    link,
    money,
    quantity,
    words,
)

MOST_LINES = 60
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
STRIPS = [
    link("size", "The size they are for", NEEDED),
    quantity("Strips"),
]
OFFCUT = link("remnant", "The remnant", NEEDED)
REASON_OF = GOODS + [words("reason", "Why the count differs from what was expected")]


def _one_thing(fields):
    return _goods_problems("", fields, True)


def _each_line(*lists):
    def also(fields):
        problems = []
        for name, must in lists:
            for index, row in enumerate(fields[name]):
                if not _is_one_thing(row, must):
                    problems += _goods_problems(name + "." + str(index) + ".", row, must)
        return problems

    return also


def _is_one_thing(row, must):
    # a line of free price is neither product nor size; none is both
    if row["product"] is None:
        return row["size"] is not None or not must
    return row["size"] is None


def _goods_problems(path, row, must):
    if _is_one_thing(row, must):
        return []
    return [problem(path + ("product" if row["product"] is None else "size"), "product_or_size")]


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
        words("reason", "Why that was taken off"),
        money("amount", "Money taken: the lines' totals, rounded where cash is"),
        Field("payment", "choice", "How it was paid; none for an even swap", choices=PAYMENTS),
        money("tendered", "Cash handed over", default=None),
    ], helper="write", also=_each_line(("lines", False), ("returned", True))),
    Kind("void", True, "A sale that never happened", [
        DAY,
        link("sale", "The sale", NEEDED),
        words("reason", "Why"),
    ], helper="write"),
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
    ], helper="write", also=_each_line(("lines", False))),
    Kind("move", True, "Stock changing place", [
        DAY,
        link("from", "Where it was", NEEDED),
        link("to", "Where it is now", NEEDED),
        link("product", "The product", NEEDED),
        quantity("Pieces"),
    ], helper="write", also=_other_place),
    Kind("set-aside", True, "Goods leaving without money, or found again", [
        DAY,
        link("place", "Where they were, or were found", NEEDED),
        link("product", "The product", NEEDED),
        quantity("Pieces"),
        Field("reason", "choice", "What became of them", choices=SET_ASIDE),
        words("note", "More about it"),
    ], helper="write"),
    Kind("asked-for", True, "Somebody wanted it and there was none", [
        DAY,
        link("booking", "The market it was at"),
        link("place", "Where it was asked for", NEEDED),
    ] + GOODS, helper="write", also=_one_thing),
    Kind("count-line", True, "What a person saw at a place", [
        DAY,
        link("session", "The count it belongs to", NEEDED),
        link("place", "Where it was counted", NEEDED),
        words("box_label", "The tray or box; empty for what lies loose", 40),
    ] + GOODS + [
        quantity("Pieces seen", 0),
    ], helper="write", also=_one_thing),
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
    ], helper="write", also=_each_line(("listed", True), ("answers", True), ("reasons", True))),
    Kind("cash-count", True, "The money in a cash box", [
        DAY,
        link("booking", "The market it is for"),
        link("box", "The cash box", NEEDED),
        Field("moment", "choice", "The float at the start, or the count at the end",
              choices=CASH_MOMENTS),
        money("amount", "Money in the box"),
        Field("counted", "list", "By note and coin", [], fields=COUNTED, most=40),
        words("reason", "Why it differs from what it should hold"),
    ], helper="write", also=_adds_up),
    Kind("cash-movement", True, "Money put into a cash box or taken out of it", [
        DAY,
        link("booking", "The market it is for"),
        link("box", "The cash box", NEEDED),
        Field("direction", "choice", "Which way", choices=DIRECTIONS),
        money("amount", "How much", lowest=1),
        words("reason", "What for"),
    ], helper="write"),
    Kind("cut", True, "Strips cut from one cloth", [
        DAY,
        link("cloth", "The cloth", NEEDED),
        link("remnant", "The remnant it was; none for cloth off the bolt"),
        Field("length", "length", "Length of it that the rows took", unit="cm"),
        Field("lines", "list", "The strips, by size", fields=STRIPS, most=MOST_LINES, fewest=1),
        Field("offcuts", "list", "What was left of it and is kept", [], item=OFFCUT, most=MOST_LINES),
    ], helper="write"),
    Kind("cut-void", True, "A cut that never happened", [
        DAY,
        link("cut", "The cut", NEEDED),
        words("reason", "Why"),
    ], helper="write"),
    Kind("checklist-signature", True, "A safe-working checklist signed for the day", [
        Field("tool", "choice", "Tool it was for", choices=TOOLS),
        Field("cloth", "choice", "Cloth it was for", choices=CLOTHS),
        Field("person", "text", "Who signed", most=60),
        DAY,
        Field("ticked", "list", "Items ticked", fields=[Field("item", "text", "Item id")], most=80),
        Field("skipped", "text", "Why musts were left unticked", "", most=200),
    ], helper="write"),
]  # fmt: skip
