"""A code as the console shows it."""

import io

import segno

from .codes import LIFE_MS, MINUTE_MS


def code_in_words(code, link):
    """Write a code for the console: to be scanned, opened or typed."""
    picture = io.StringIO()
    segno.make(link, micro=False).terminal(out=picture, compact=True)
    minutes = LIFE_MS // MINUTE_MS
    return f"{picture.getvalue()}Open {link}\nor type the code {code}: good once, for {minutes} minutes."
