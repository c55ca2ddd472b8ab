"""What is sold and what comes back."""

from sqlalchemy import Index
from sqlalchemy.orm import Mapped, mapped_column

from ..database import db
from .columns import CLUSTERED, Choice, Count, Day, Description, Fact, Flag, Id, Money, Number, Rows, Words


class Product(Description):
    """One size in one cloth, as it is sold."""

    __tablename__ = "product"

    name: Mapped[Words | None]
    size: Mapped[Id | None]
    cloth: Mapped[Id | None]
    price: Mapped[Money | None]
    group: Mapped[Words | None]
    active: Mapped[Flag | None]
    archived: Mapped[Flag | None]


class Offer(Description):
    """A price for several, or a share off."""

    __tablename__ = "offer"

    name: Mapped[Words | None]
    groups: Mapped[Rows | None]
    n: Mapped[Count | None]
    price: Mapped[Money | None]
    percent: Mapped[Number | None]
    active: Mapped[Flag | None]
    archived: Mapped[Flag | None]


class Sale(Fact):
    """Goods for money."""

    __tablename__ = "sale"

    day: Mapped[Day]
    booking: Mapped[Id | None]
    place: Mapped[Id]
    box: Mapped[Id | None]
    lines: Mapped[Rows]
    returned: Mapped[Rows]
    goods: Mapped[Choice]
    offers: Mapped[Rows]
    off: Mapped[Money]
    reason: Mapped[Words]
    amount: Mapped[Money]
    payment: Mapped[Choice]
    tendered: Mapped[Money | None]


class Void(Fact):
    """A sale that is void."""

    __tablename__ = "void"

    day: Mapped[Day]
    sale: Mapped[Id]
    reason: Mapped[Words]


class Refund(Fact):
    """Money going back."""

    __tablename__ = "refund"

    day: Mapped[Day]
    sale: Mapped[Id | None]
    booking: Mapped[Id | None]
    place: Mapped[Id]
    box: Mapped[Id | None]
    lines: Mapped[Rows]
    amount: Mapped[Money]
    payment: Mapped[Choice]
    goods: Mapped[Choice]
    reason: Mapped[Words]


class RefundVoid(Fact):
    """A refund that is void."""

    __tablename__ = "refund_void"

    day: Mapped[Day]
    refund: Mapped[Id]
    reason: Mapped[Words]


class AskedFor(Fact):
    """Somebody wanted it and there was none."""

    __tablename__ = "asked_for"

    day: Mapped[Day]
    booking: Mapped[Id | None]
    place: Mapped[Id]
    product: Mapped[Id | None]
    size: Mapped[Id | None]


class AskedForVoid(Fact):
    """Something nobody asked for after all."""

    __tablename__ = "asked_for_void"

    day: Mapped[Day]
    asked_for: Mapped[Id]
    reason: Mapped[Words]


class GoodsLine(db.Model):
    """A line of a sale or refund, so that goods are found without opening each list."""

    __tablename__ = "goods_line"
    __table_args__ = (Index("ix_goods_line_product", "business", "product", "fact"), CLUSTERED)

    business: Mapped[Id] = mapped_column(primary_key=True)
    fact: Mapped[Id] = mapped_column(primary_key=True)
    part: Mapped[Choice] = mapped_column(primary_key=True)
    position: Mapped[Count] = mapped_column(primary_key=True)
    product: Mapped[Id | None]
    size: Mapped[Id | None]
    quantity: Mapped[Count]
    total: Mapped[Money | None]
