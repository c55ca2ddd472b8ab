"""How much at once and how long: layers under a tool, cuts of a blade.

All are usual figures to start from; the tool maker's manual comes first.
"""

from ..numbers.rounding import ceil, floor

# usual most layers, by tool and cloth: common practice, no source; but for the
# powered knife 12 layers, as of low spreads under a round knife (clothing
# course notes), fewer of what is thick or slides
MOST = {
    "rotary cutter": {"lawn": 8, "woven": 6, "gauze": 4, "cord": 2, "pile": 1, "knit": 4, "stretch": 2,
                      "bias": 4},
    "shears": {"lawn": 4, "woven": 4, "gauze": 2, "cord": 2, "pile": 1, "knit": 2, "stretch": 1, "bias": 2},
    "powered knife": {"lawn": 12, "woven": 12, "gauze": 8, "cord": 8, "pile": 4, "knit": 8, "stretch": 6,
                      "bias": 8},
    "snips": {"lawn": 2, "woven": 2, "gauze": 2, "cord": 1, "pile": 1, "knit": 1, "stretch": 1, "bias": 1},
    "tearing": {"lawn": 1, "woven": 1},
}  # fmt: skip

# usual highest lay in mm. Source: 10 mm for small round knives of 50 mm
# (Industrial Cutting of Textile Materials, 8.4), which also says no more than
# about a quarter of the blade's diameter (8.3.6); the rest common practice,
# no source
HIGHEST = {"rotary cutter": 3.0, "shears": 2.5, "powered knife": 10.0, "snips": 1.5}

# cuts after which a blade is changed or sharpened, on easy and on hard cloth:
# a reminder to look, common practice, no source
BLADE_CUTS = {
    "rotary cutter": (1000, 600),
    "shears": (5000, 3000),
    "powered knife": (800, 400),
    "snips": (5000, 3000),
}
HARD_ON_BLADES = ("cord", "pile", "stretch")


def most_layers(tool, cloth, layer_thickness):
    """Work out the usual most layers at once, by count and by height.

    Takes: layer_thickness in mm.
    Returns: the number, 0 if one layer is already too thick; None where
    layers are no measure (sewing, pressing) or the tool is not for the cloth.
    """
    most = MOST.get(tool, {}).get(cloth)
    if most is None or tool not in HIGHEST:
        return most
    return min(most, floor(HIGHEST[tool] / layer_thickness))


def passes(layers, most):
    """Count the passes that layers take at so many at once; None if none fits."""
    return ceil(layers / most) if most else None


def blade_life(tool, cloth):
    """Say after how many cuts the blade is due; None where there is no blade."""
    if tool not in BLADE_CUTS:
        return None
    easy, hard = BLADE_CUTS[tool]
    return hard if cloth in HARD_ON_BLADES else easy
