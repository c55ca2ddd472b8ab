"""Pairing codes: ten characters to be read out or typed, good once, for ten minutes."""

import hashlib
import ipaddress
import secrets

from ..store import devices

# no letter or digit here is taken for another, and O, I, L are read as 0, 1, 1: Douglas Crockford,
# "Base 32" (crockford.com/base32.html); ten of them make 50 bits
ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LOOKALIKES = str.maketrans("OIL", "011", " -")
LENGTH = 10
MINUTE_MS = 60_000
LIFE_MS = 10 * MINUTE_MS
# wrong codes in the last ten minutes from one address; once there were so many from anywhere, one
MOST_TRIES_OF_ONE = 10
MOST_TRIES = 200


class TooManyTries(Exception):
    """Too many wrong codes lately; `seconds` says how long to wait."""

    seconds = LIFE_MS // 1000


class WrongCode(Exception):
    """No such code, or it was used, or its ten minutes are over."""


def make(connection, business, role, name, now):
    """Make a code for one phone; it is told here and kept nowhere."""
    code = "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))
    kept = {"business": business, "code_hash": hash_of(code), "name": name, "role": role}
    devices.keep_code(connection, kept | {"ends_at": now + LIFE_MS})
    return code


def make_own(connection, device, code, now):
    """Keep a code that a phone made itself, at random and as long as a UUID: it pairs that phone again.

    A browser writes a cookie to the disk half a minute after it got it; a phone killed before has its
    records, and this code among them, and no cookie. Whoever has the code could read those records anyway.
    """
    devices.forget_code(connection, hash_of(code))
    kept = {"business": device.business, "code_hash": hash_of(code), "name": None, "role": device.role}
    devices.keep_code(connection, kept | {"ends_at": now + LIFE_MS, "device": device.id})


def find(connection, code, address, now):
    """Find the row of a typed code, without using it up.

    Returns: the row, or None for a wrong code, which is then remembered.
    Raises: TooManyTries.
    """
    source = network_of(address)
    since = now - LIFE_MS
    # whoever tries from many addresses must not keep out one who has the code
    most = MOST_TRIES_OF_ONE if devices.tries_since(connection, since) < MOST_TRIES else 1
    if devices.tries_since(connection, since, source) >= most:
        raise TooManyTries
    row = devices.find_code(connection, hash_of(code), now)
    if row is None:
        devices.keep_try(connection, source, now, since)
    return row


def hash_of(code):
    """Hash a code as typed: small letters, gaps and lookalikes are forgiven."""
    return hashlib.sha256(code.upper().translate(LOOKALIKES).encode()).hexdigest()


def network_of(address):
    """Name who tries: an IPv4 address, or the /64 that one IPv6 customer has."""
    try:
        found = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return "unknown"
    if found.version == 6:
        return str(ipaddress.ip_network((found, 64), strict=False).network_address)
    return str(found)


def link(origin, code):
    """Write the address that a phone opens to be paired; no server is told what stands after the #."""
    return f"{origin}/settings#pair={code}"
