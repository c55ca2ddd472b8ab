"""Phones: paired by a code, let in by a token, revoked."""

import hashlib
import hmac
import secrets
import uuid

from ..store import devices, log, reading, writing
from . import codes

TOKEN_BYTES = 32


class OtherBusiness(Exception):
    """The phone holds data of another business than the code is for."""


class Revoked(Exception):
    """The phone was let in once, and is no more."""


def pair(code, name, now, address, business=None, device=None, here=None, again=None):
    """Pair a phone by its code.

    Takes: business and device, ids the phone had before, if any; here, the
    device it is let in as now, or None; again, a code that it made itself, to be paired again by.
    Returns: (the device's row, its cookie's text, the epoch).
    Raises: WrongCode, TooManyTries, OtherBusiness; only a good pairing uses the
    code up.
    """
    with writing() as connection:
        row = codes.find(connection, code, address, now)
        paired = _pair(connection, row, name, now, business, device, here) if row else None
        if paired and again:
            codes.make_own(connection, paired[0], again, now)
    if paired is None:
        raise codes.WrongCode
    return paired


def _pair(connection, row, name, now, business, device, here):
    if (business or row.business) != row.business or (here and here.business != row.business):
        raise OtherBusiness
    before = devices.find(connection, row.business, row.device) if row.device else None
    # its own code brings back no phone that was removed
    if row.device and (before is None or before.revoked_at is not None):
        return None
    if not devices.use_code(connection, row.business, row.code_hash):
        return None
    known = before or row
    token = secrets.token_urlsafe(TOKEN_BYTES)
    made = {
        "business": row.business,
        "id": row.device or _id_for(connection, row, device, here),
        "name": known.name or name,
        "role": known.role,
        "token_hash": hash_of(token),
        "paired_at": before.paired_at if before else now,
        "seen_at": now,
        "unsent": None,
        "revoked_at": None,
    }
    devices.keep(connection, made)
    kept = devices.find(connection, row.business, made["id"])
    return kept, cookie_of(kept, token), log.head(connection, row.business).epoch


def _id_for(connection, row, device, here):
    """Let a phone keep the id in its stamps, unless it could pass for another phone that way."""
    if device is None:
        return str(uuid.uuid4())
    there = devices.find(connection, row.business, device)
    if there is None:
        return str(uuid.uuid4()) if devices.is_known(connection, device) else device
    proven = here is not None and here.id == device
    # an owner may do whatever another phone may; a helper could pass for another helper
    return device if proven or row.role == "owner" else str(uuid.uuid4())


def cookie_of(device, token):
    """Write a device's cookie; the business first, so that it is looked up where it is kept."""
    return f"{device.business}.{device.id}.{token}"


def let_in(cookie):
    """Find the device of a cookie, or None. Raises: Revoked."""
    business, _, rest = cookie.partition(".")
    id, _, token = rest.partition(".")
    if len(business) != 36 or len(id) != 36 or not cookie.isascii() or "\0" in cookie:
        return None
    with reading() as connection:
        device = devices.find(connection, business, id)
    if device is None or not hmac.compare_digest(device.token_hash, hash_of(token)):
        return None
    if device.revoked_at is not None:
        raise Revoked
    return device


def hash_of(token):
    """Hash a token; of 256 random bits, so that a plain hash is enough."""
    return hashlib.sha256(token.encode()).hexdigest()


def revoke(business, id, now):
    """Let a device in no more; returns whether there is one."""
    with writing() as connection:
        there = devices.find(connection, business, id)
        if there and there.revoked_at is None:
            devices.change(connection, business, id, revoked_at=now)
    return there is not None
