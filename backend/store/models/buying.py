"""Sizes, cloths and other material, the shopping list, and what was bought."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Count, Day, Description, Fact, Flag, Id, Money, Number, Words


class Piece(Description):
    """A size she makes."""

    __tablename__ = "piece"

    name: Mapped[Words | None]
    loop: Mapped[Number | None]
    fullness: Mapped[Number | None]
    tube_width: Mapped[Number | None]
    end_seam: Mapped[Number | None]
    side_seam: Mapped[Number | None]
    elastic: Mapped[Id | None]
    archived: Mapped[Flag | None]


class Cloth(Description):
    """A cloth as bought."""

    __tablename__ = "cloth"

    name: Mapped[Words | None]
    bolt_width: Mapped[Number | None]
    selvedge: Mapped[Number | None]
    shrink_length: Mapped[Number | None]
    shrink_width: Mapped[Number | None]
    squaring: Mapped[Number | None]
    mixed: Mapped[Flag | None]
    repeat: Mapped[Number | None]
    shop_increment: Mapped[Number | None]
    minimum_cut: Mapped[Number | None]
    price: Mapped[Money | None]
    price_length: Mapped[Number | None]
    tear: Mapped[Flag | None]
    archived: Mapped[Flag | None]


class Remnant(Description):
    """A piece of cloth she has, as it can be cut now."""

    __tablename__ = "remnant"

    name: Mapped[Words | None]
    cloth: Mapped[Id | None]
    width: Mapped[Number | None]
    length: Mapped[Number | None]
    use_first: Mapped[Flag | None]
    archived: Mapped[Flag | None]


class Elastic(Description):
    """An elastic as bought, and what of it is at home."""

    __tablename__ = "elastic"

    name: Mapped[Words | None]
    elastic_width: Mapped[Number | None]
    elastic_thickness: Mapped[Number | None]
    tail: Mapped[Number | None]
    strands: Mapped[Count | None]
    pull: Mapped[Number | None]
    knot_takeup: Mapped[Number | None]
    roll_length: Mapped[Number | None]
    price: Mapped[Money | None]
    rolls: Mapped[Count | None]
    opened: Mapped[Number | None]
    archived: Mapped[Flag | None]


class Thread(Description):
    """A thread as bought, and what of it is at home."""

    __tablename__ = "thread"

    name: Mapped[Words | None]
    length: Mapped[Number | None]
    price: Mapped[Money | None]
    spools: Mapped[Count | None]
    opened: Mapped[Number | None]
    grams: Mapped[Number | None]
    empty: Mapped[Number | None]
    tex: Mapped[Number | None]
    archived: Mapped[Flag | None]


class Supply(Description):
    """What is used up beside cloth, elastic and thread."""

    __tablename__ = "supply"

    name: Mapped[Words | None]
    use: Mapped[Choice | None]
    price: Mapped[Money | None]
    lasts: Mapped[Count | None]
    at_home: Mapped[Count | None]
    archived: Mapped[Flag | None]


class ListLine(Description):
    """A line of the shopping list."""

    __tablename__ = "list_line"

    name: Mapped[Words | None]
    for_what: Mapped[Words | None]
    quantity: Mapped[Count | None]
    length_to_buy: Mapped[Number | None]
    cost: Mapped[Money | None]
    bought: Mapped[Flag | None]
    cloth: Mapped[Id | None]
    size: Mapped[Id | None]
    elastic: Mapped[Id | None]
    thread: Mapped[Id | None]
    supply: Mapped[Id | None]
    packs: Mapped[Count | None]
    archived: Mapped[Flag | None]


class Purchase(Fact):
    """Material that was bought."""

    __tablename__ = "purchase"

    day: Mapped[Day]
    cloth: Mapped[Id | None]
    elastic: Mapped[Id | None]
    thread: Mapped[Id | None]
    supply: Mapped[Id | None]
    length: Mapped[Number | None]
    quantity: Mapped[Count | None]
    amount: Mapped[Money]
    tax: Mapped[Money]
    box: Mapped[Id | None]
    booking: Mapped[Id | None]
    line: Mapped[Id | None]


class PurchaseVoid(Fact):
    """A purchase that is void."""

    __tablename__ = "purchase_void"

    day: Mapped[Day]
    purchase: Mapped[Id]
    reason: Mapped[Words]
