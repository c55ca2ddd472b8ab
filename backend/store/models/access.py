"""Who may reach a business: its devices, the codes that pair them, and the tries at codes."""

from sqlalchemy import BigInteger, Integer, String
from sqlalchemy.orm import Mapped, mapped_column

from ..database import db
from .log import ID


class Device(db.Model):
    """A paired phone. Its token is kept as a hash only."""

    __tablename__ = "device"

    business: Mapped[str] = mapped_column(ID, primary_key=True)
    id: Mapped[str] = mapped_column(ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(60))
    role: Mapped[str] = mapped_column(String(10))
    token_hash: Mapped[str] = mapped_column(String(64))
    paired_at: Mapped[int] = mapped_column(BigInteger)
    seen_at: Mapped[int | None] = mapped_column(BigInteger)
    unsent: Mapped[int | None] = mapped_column(Integer)
    revoked_at: Mapped[int | None] = mapped_column(BigInteger)


class PairingCode(db.Model):
    """A code that pairs one phone, once, for ten minutes. Kept as a hash only.

    With a device it is the phone's own, and pairs that one again and no other.
    """

    __tablename__ = "pairing_code"

    business: Mapped[str] = mapped_column(ID, primary_key=True)
    code_hash: Mapped[str] = mapped_column(String(64), primary_key=True, index=True)
    name: Mapped[str | None] = mapped_column(String(60))
    role: Mapped[str] = mapped_column(String(10))
    ends_at: Mapped[int] = mapped_column(BigInteger)
    device: Mapped[str | None] = mapped_column(ID)


class PairingTry(db.Model):
    """A wrong code, and where it came from. It belongs to no business: it found none."""

    __tablename__ = "pairing_try"

    id: Mapped[int] = mapped_column(primary_key=True)
    address: Mapped[str] = mapped_column(String(45))
    at: Mapped[int] = mapped_column(BigInteger, index=True)
