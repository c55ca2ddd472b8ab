"""The money in the cash boxes."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Day, Description, Fact, Flag, Id, Money, Rows, Words


class CashBox(Description):
    """A box for money."""

    __tablename__ = "cash_box"

    name: Mapped[Words | None]
    usual_float: Mapped[Money | None]
    archived: Mapped[Flag | None]


class CashCount(Fact):
    """The money in a cash box."""

    __tablename__ = "cash_count"

    day: Mapped[Day]
    booking: Mapped[Id | None]
    box: Mapped[Id]
    moment: Mapped[Choice]
    amount: Mapped[Money]
    counted: Mapped[Rows]
    reason: Mapped[Words]


class CashMovement(Fact):
    """Money put into a cash box or taken out of it."""

    __tablename__ = "cash_movement"

    day: Mapped[Day]
    booking: Mapped[Id | None]
    box: Mapped[Id]
    direction: Mapped[Choice]
    amount: Mapped[Money]
    reason: Mapped[Words]
