"""What it costs to be in business, and what an hour and a product cost from which day on."""

from sqlalchemy.orm import Mapped, mapped_column

from .columns import Choice, Day, Description, Fact, Flag, Id, Money, Words


class Overhead(Description):
    """What it costs to be in business, whatever is sewn."""

    __tablename__ = "overhead"

    name: Mapped[Words | None]
    amount: Mapped[Money | None]
    per: Mapped[Choice | None]
    from_: Mapped[Day | None] = mapped_column("from")
    to: Mapped[Day | None]
    archived: Mapped[Flag | None]


class Expense(Fact):
    """Money spent on no material."""

    __tablename__ = "expense"

    day: Mapped[Day]
    booking: Mapped[Id | None]
    what: Mapped[Words]
    amount: Mapped[Money]
    box: Mapped[Id | None]


class ExpenseVoid(Fact):
    """An expense that is void."""

    __tablename__ = "expense_void"

    day: Mapped[Day]
    expense: Mapped[Id]
    reason: Mapped[Words]


class PriceSet(Fact):
    """A product's price from a day on."""

    __tablename__ = "price_set"

    day: Mapped[Day]
    product: Mapped[Id]
    price: Mapped[Money]
    from_: Mapped[Day] = mapped_column("from")


class WageSet(Fact):
    """What an hour's work is paid from a day on."""

    __tablename__ = "wage_set"

    day: Mapped[Day]
    person: Mapped[Id | None]
    wage: Mapped[Money]
    from_: Mapped[Day] = mapped_column("from")
