"""Ids for the records of tests, by short names of theirs."""


def named(name):
    """Make the id of what is called so."""
    return "00000000-0000-7000-8000-" + name.encode().hex().rjust(12, "0")
