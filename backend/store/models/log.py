"""The log: every change as it was taken, in the order it was taken."""

from sqlalchemy import BigInteger, Index, LargeBinary, SmallInteger, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import db

ID = String(36)


class LogHead(db.Model):
    """How far a business's log goes; its row is the lock of all who write to it."""

    __tablename__ = "log_head"

    business: Mapped[str] = mapped_column(ID, primary_key=True)
    epoch: Mapped[str] = mapped_column(ID)
    last_seq: Mapped[int] = mapped_column(BigInteger)
    made_at: Mapped[int] = mapped_column(BigInteger)


class Change(db.Model):
    """One change of the log; `fields` is its canonical JSON text."""

    __tablename__ = "change"
    __table_args__ = (
        Index("uq_change_business_id", "business", "id", unique=True),
        {"sqlite_with_rowid": False},
    )

    business: Mapped[str] = mapped_column(ID, primary_key=True)
    seq: Mapped[int] = mapped_column(BigInteger, primary_key=True)
    id: Mapped[str] = mapped_column(ID)
    kind: Mapped[str] = mapped_column(String(40))
    record: Mapped[str | None] = mapped_column(ID)
    fields: Mapped[str] = mapped_column(Text)
    at: Mapped[int] = mapped_column(BigInteger)
    stamp: Mapped[str] = mapped_column(String(55))
    schema: Mapped[int] = mapped_column(SmallInteger)
    replaces: Mapped[str | None] = mapped_column(ID)
    hash: Mapped[bytes] = mapped_column(LargeBinary(32))
    received_at: Mapped[int] = mapped_column(BigInteger)
    device: Mapped[str] = mapped_column(ID)
    hidden: Mapped[int] = mapped_column(SmallInteger)
