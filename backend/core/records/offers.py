"""What an offer must say."""

from ..declaring.errors import problem


def is_whole(offer):
    """Say whether an offer says what it gives: pieces and their price, or a share off, and not both."""
    several = [offer.get("n") is not None, offer.get("price") is not None]
    return several == [False, False] if offer.get("percent") is not None else several == [True, True]


def gives_something(fields):
    """Return the problem of an offer that does not, in a list."""
    return [] if is_whole(fields) else [problem("n", "price_or_percent")]
