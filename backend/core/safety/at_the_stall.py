"""What is said where goods are packed and laid out: small parts, and children under three."""

# Source: 16 CFR 1501 tests what is meant for children under three for small parts, and leaves out
# some clothing accessories and grooming articles; other countries have rules of their own
SMALL_PARTS = (
    "Hair ties, charms and cut ends of elastic go into small mouths: keep them out of reach of children "
    "under three, and hand them to a grown-up."
)
DEFER = (
    "Selling for a child under three may come under rules on small parts: local law and qualified advice "
    "come first."
)


def at_the_stall():
    """Say the cautions of a stall.

    Returns: {"small_parts", "defer"}, a sentence or two each.
    """
    return {"small_parts": SMALL_PARTS, "defer": DEFER}
