"""Who is let in: phones by their cookie, and only from this server's own pages."""

import ipaddress
import time
from urllib.parse import urlsplit

from flask import current_app, g, request
from werkzeug.exceptions import Forbidden, Unauthorized

from ..access import phones
from .problems import problem_reply

COOKIE_DAYS = 400
LOCAL_NAMES = ("localhost",)

UNPAIRED = "this phone is not paired with a business here"
REVOKED = "this phone was removed; what it had not sent is still on it"
FOREIGN = "only this server's own pages may write here"
OTHER_NAME = "this server does not go by that name; start it with --name to allow it"
NEEDS_HTTPS = "a phone is paired over HTTPS only, or on this machine itself"
OWNERS_ONLY = "only an owner may do this"


def now():
    """Tell the time, UTC ms."""
    return time.time_ns() // 1_000_000


def let_in_phone():
    """Before each request of a phone: find its device, or refuse."""
    refuse_foreign()
    try:
        device = phones.let_in(request.cookies.get(cookie_name(), ""))
    except phones.Revoked:
        return problem_reply(403, "Revoked", REVOKED, "/api.html#revoked")
    if device is None:
        raise Unauthorized(UNPAIRED)
    g.device = device
    return None


def is_phone():
    """Say whether a request comes from a phone of a business here; one without a cookie costs no look."""
    cookie = request.cookies.get(cookie_name())
    try:
        return cookie is not None and phones.let_in(cookie) is not None
    except phones.Revoked:
        return False


def let_in_owner():
    """Before each request that is for owners: a phone that is one."""
    refused = let_in_phone()
    if refused is None and g.device.role != "owner":
        raise Forbidden(OWNERS_ONLY)
    return refused


def refuse_unless_known(kind):
    """Refuse a phone whose role may not know of a kind of record."""
    if not kind.is_known_to(g.device.role):
        raise Forbidden(OWNERS_ONLY)


def refuse_foreign():
    """Refuse a request by another name, and one that writes from another origin."""
    if not is_own_name(urlsplit(request.host_url).hostname or ""):
        raise Forbidden(OTHER_NAME)
    if request.method not in ("GET", "HEAD", "OPTIONS") and request.headers.get("Origin") != own_origin():
        raise Forbidden(FOREIGN)


def own_origin():
    """Write the origin of this server's pages, as browsers do."""
    return request.host_url.rstrip("/")


def is_own_name(name):
    """Say whether a host name is this server's: an address cannot be rebound, a name could be."""
    if name in LOCAL_NAMES + current_app.config["BOLTFAIR"].names:
        return True
    return is_address(name)


def is_address(name):
    """Say whether a host name is an IP address."""
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return False
    return True


def is_console():
    """Say whether a request comes from this computer itself, and not through a proxy on it."""
    name = urlsplit(request.host_url).hostname or ""
    own = name in LOCAL_NAMES or (is_address(name) and ipaddress.ip_address(name).is_loopback)
    sender = request.remote_addr or ""
    through_proxy = "X-Forwarded-For" in request.headers or "Forwarded" in request.headers
    return own and not through_proxy and is_address(sender) and ipaddress.ip_address(sender).is_loopback


def refuse_unsafe():
    """Refuse to hand a token out where others could read it on its way."""
    name = urlsplit(request.host_url).hostname or ""
    local = name in LOCAL_NAMES or (is_address(name) and ipaddress.ip_address(name).is_loopback)
    if not request.is_secure and not local:
        raise Forbidden(NEEDS_HTTPS)


def cookie_name():
    """Name the cookie; over HTTPS so that no other host may set it (RFC 6265bis, section 4.1.3.2).

    The demo's has a name of its own: a browser tells hosts apart, and not the ports of one.
    """
    name = "boltfair-demo" if current_app.config["BOLTFAIR"].demo else "boltfair"
    return f"__Host-{name}" if request.is_secure else name


def set_cookie(reply, value):
    """Hand out a device's cookie, or hand it out again for another 400 days."""
    reply.set_cookie(
        cookie_name(),
        value,
        max_age=COOKIE_DAYS * 86_400,
        secure=request.is_secure,
        httponly=True,
        samesite="Strict",
        path="/",
    )
    return reply
