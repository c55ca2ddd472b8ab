"""The types that columns of records have, named as the core names quantities."""

from typing import Annotated

from sqlalchemy import JSON, BigInteger, Boolean, Double, Integer, String, Text
from sqlalchemy.orm import Mapped, declared_attr, mapped_column

from ..database import db

Id = Annotated[str, mapped_column(String(36))]
Day = Annotated[str, mapped_column(String(10))]
Words = Annotated[str, mapped_column(Text)]
Choice = Annotated[str, mapped_column(String(40))]
Money = Annotated[int, mapped_column(BigInteger)]
Count = Annotated[int, mapped_column(Integer)]
Number = Annotated[float, mapped_column(Double)]
Flag = Annotated[bool, mapped_column(Boolean)]
# a list that is missing is no JSON null
Rows = Annotated[list, mapped_column(JSON(none_as_null=True))]
Stamps = Annotated[dict, mapped_column(JSON)]

# a table clustered by its key keeps one business's rows together
CLUSTERED = {"sqlite_with_rowid": False}


class Record(db.Model):
    """What every table of records leads with: its business, then the record's id."""

    __abstract__ = True
    __table_args__ = CLUSTERED

    business: Mapped[Id] = mapped_column(primary_key=True, sort_order=-3)
    id: Mapped[Id] = mapped_column(primary_key=True, sort_order=-2)


class Fact(Record):
    """A fact: what happened, and when (UTC ms)."""

    __abstract__ = True

    @declared_attr
    def at(cls) -> Mapped[int]:  # noqa: N805
        """When it happened."""
        return mapped_column(BigInteger, sort_order=-1)


class Description(Record):
    """A description: each field as last edited, and the stamp of that edit.

    An edit may arrive before the change that made the record, so any field may
    be missing for a while.
    """

    __abstract__ = True

    @declared_attr
    def stamps(cls) -> Mapped[Stamps]:  # noqa: N805
        """The stamp that won each field."""
        return mapped_column(JSON, sort_order=999)
