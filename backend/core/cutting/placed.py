"""Where a strip lies on a cloth: the fields that each layout tells it in."""

from ..declaring.spec import Field

PLACED = [
    Field("x", "length", "Across the cloth, from its left usable edge"),
    Field("y", "length", "Along the cloth, from its first straight end"),
    Field("length", "length", "Cut length of the strip: lies across, or along where turned"),
    Field("width", "length", "Cut width of the strip: lies along, or across where turned"),
    Field("turned", "flag", "The strip's length lies along the cloth"),
]
