"""Where stock is, and what people counted."""

from sqlalchemy.orm import Mapped, mapped_column

from .columns import Choice, Count, Day, Description, Fact, Flag, Id, Rows, Words


class Place(Description):
    """Where stock is."""

    __tablename__ = "place"

    name: Mapped[Words | None]
    use: Mapped[Choice | None]
    archived: Mapped[Flag | None]


class Move(Fact):
    """Stock changing place."""

    __tablename__ = "move"

    day: Mapped[Day]
    from_: Mapped[Id] = mapped_column("from")
    to: Mapped[Id]
    product: Mapped[Id]
    quantity: Mapped[Count]


class SetAside(Fact):
    """Goods leaving without money, or found again."""

    __tablename__ = "set_aside"

    day: Mapped[Day]
    place: Mapped[Id]
    product: Mapped[Id]
    quantity: Mapped[Count]
    reason: Mapped[Choice]
    note: Mapped[Words]


class SetAsideVoid(Fact):
    """Goods that never left without money."""

    __tablename__ = "set_aside_void"

    day: Mapped[Day]
    set_aside: Mapped[Id]
    reason: Mapped[Words]


class CountLine(Fact):
    """What a person saw at a place."""

    __tablename__ = "count_line"

    day: Mapped[Day]
    session: Mapped[Id]
    place: Mapped[Id]
    box_label: Mapped[Words]
    product: Mapped[Id | None]
    size: Mapped[Id | None]
    quantity: Mapped[Count]


class CountClose(Fact):
    """The end of a count."""

    __tablename__ = "count_close"

    day: Mapped[Day]
    session: Mapped[Id]
    place: Mapped[Id]
    scope: Mapped[Choice]
    listed: Mapped[Rows]
    answers: Mapped[Rows]
    reasons: Mapped[Rows]
