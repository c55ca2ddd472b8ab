"""Paired phones, the codes that pair them, and the tries at codes."""

from sqlalchemy import delete, func, insert, select, update

from .models.access import Device, PairingCode, PairingTry

DEVICES = Device.__table__
CODES = PairingCode.__table__
TRIES = PairingTry.__table__


def find(connection, business, id):
    """Find a device of a business, or None."""
    wanted = select(DEVICES).where(DEVICES.c.business == business, DEVICES.c.id == id)
    return connection.execute(wanted).one_or_none()


def is_known(connection, id):
    """Say whether any business has a device of this id."""
    return connection.execute(select(DEVICES.c.id).where(DEVICES.c.id == id)).first() is not None


def of_business(connection, business):
    """List a business's devices, oldest first."""
    wanted = select(DEVICES).where(DEVICES.c.business == business)
    return connection.execute(wanted.order_by(DEVICES.c.paired_at, DEVICES.c.id)).all()


def helpers(connection, business):
    """Name the devices of a business that are a helper's."""
    wanted = select(DEVICES.c.id).where(DEVICES.c.business == business, DEVICES.c.role == "helper")
    return set(connection.scalars(wanted))


def keep(connection, row):
    """Keep a device, new or paired again."""
    mine = (DEVICES.c.business == row["business"], DEVICES.c.id == row["id"])
    connection.execute(delete(DEVICES).where(*mine))
    connection.execute(insert(DEVICES), row)


def change(connection, business, id, **values):
    """Change what is kept of a device; returns whether there is one."""
    changed = update(DEVICES).where(DEVICES.c.business == business, DEVICES.c.id == id).values(**values)
    return connection.execute(changed).rowcount == 1


def keep_code(connection, row):
    """Keep a new pairing code, and drop those that have ended."""
    connection.execute(delete(CODES).where(CODES.c.ends_at < row["ends_at"] - 86_400_000))
    connection.execute(insert(CODES), row)


def find_code(connection, code_hash, now):
    """Find a code that has not ended, or None."""
    wanted = select(CODES).where(CODES.c.code_hash == code_hash, CODES.c.ends_at > now)
    return connection.execute(wanted).one_or_none()


def use_code(connection, business, code_hash):
    """Take a code away; returns whether it was still there."""
    used = delete(CODES).where(CODES.c.business == business, CODES.c.code_hash == code_hash)
    return connection.execute(used).rowcount == 1


def forget_code(connection, code_hash):
    """Forget a code, of whichever business: who names it knows it."""
    connection.execute(delete(CODES).where(CODES.c.code_hash == code_hash))


def tries_since(connection, since, address=None):
    """Count the wrong codes since a time, from one address or over all."""
    wanted = select(func.count()).select_from(TRIES).where(TRIES.c.at > since)
    if address:
        wanted = wanted.where(TRIES.c.address == address)
    return connection.scalar(wanted)


def keep_try(connection, address, at, forget_before):
    """Remember a wrong code, and forget old ones."""
    connection.execute(delete(TRIES).where(TRIES.c.at < forget_before))
    connection.execute(insert(TRIES), {"address": address, "at": at})
