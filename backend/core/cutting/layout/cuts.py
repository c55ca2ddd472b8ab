"""The cuts of a laid cloth in the order to make them, with ruler settings, layers and passes."""

from ...numbers.rounding import at_most
from .placing import levels_of


def cuts_of(cloth, rows, length):
    """List the cuts: rows first, one height after the other, then like rows together.

    Rows are cut on the cloth folded as it is asked, then opened; like rows are
    stacked for the cross cuts, like pieces for what is cut of them, up to the layers asked;
    the last pass may have fewer. Torn cloth lies single. A cut at the very edge
    of the cloth is none.
    Takes: length, how much of the cloth there is, or None.
    Returns: [{what, setting, times, rows, strip, layers, passes, last_layers}].
    """
    single = cloth.given["tear"]
    fold = 1 if single else cloth.given["fold"]
    layers = 1 if single else cloth.given["layers"]
    cuts = []
    for numbers in _runs(rows, lambda row: row["height"]):
        last = rows[numbers[-1]]
        at_end = length is not None and at_most(length, last["y"] + last["height"])
        times = len(numbers) - 1 if at_end else len(numbers)
        if times:
            cuts.append(_cut("row", last["height"], times, numbers, None, fold, 1, fold))
    for numbers in _runs(rows, _contents):
        row = rows[numbers[0]]
        cuts += _cross_cuts(cloth, row, numbers, layers)
        cuts += _apart(row, numbers, layers)
    return cuts


def settings_of(cuts):
    """Count how often the ruler is set anew."""
    count, setting = 0, None
    for cut in cuts:
        if cut["setting"] != setting:
            count, setting = count + 1, cut["setting"]
    return count


def _runs(rows, key):
    # numbers of rows next to each other that are alike
    runs, before = [], None
    for number, row in enumerate(rows):
        own = key(row)
        if runs and own == before:
            runs[-1].append(number)
        else:
            runs.append([number])
        before = own
    return runs


def _contents(row):
    return (
        row["height"],
        [
            (piece["count"], level["strip"], level["extent"], level["stack"])
            for piece in row["pieces"]
            for level in levels_of(piece)
        ],
    )


def _cross_cuts(cloth, row, numbers, layers):
    cuts = []
    full = at_most(cloth.width, row["extent"])
    for place, piece in enumerate(row["pieces"]):
        times = piece["count"]
        if full and place == len(row["pieces"]) - 1:
            times -= 1
        if cuts and (cuts[-1]["strip"], cuts[-1]["setting"]) == (piece["strip"], piece["extent"]):
            # a whole stack, then what is left of it
            cuts[-1]["times"] += times
        elif times:
            cuts.append(
                _stacked("cross", piece["extent"], times, numbers, piece["strip"], len(numbers), layers)
            )
    return cuts


def _apart(row, numbers, layers):
    # a strip alone is trimmed to its height; a stack is cut apart, the last of it only if more is left,
    # and what is not as wide as the widest of it is trimmed
    cuts = []
    for piece in row["pieces"]:
        pieces, levels, high = len(numbers) * piece["count"], levels_of(piece), 0.0
        for level in levels:
            high += level["height"] * level["stack"]
        full = at_most(row["height"], high)
        what = "trim" if len(levels) == 1 and piece["stack"] == 1 else "stack"
        for place, level in enumerate(levels):
            times = level["stack"] - (1 if full and place == len(levels) - 1 else 0)
            if times:
                cuts.append(_stacked(what, level["height"], times, numbers, level["strip"], pieces, layers))
        for level in piece["over"]:
            if not at_most(piece["extent"], level["extent"]):
                own = pieces * level["stack"]
                cuts.append(_stacked("trim", level["extent"], 1, numbers, level["strip"], own, layers))
    return cuts


def _stacked(what, setting, times, numbers, strip, pieces, layers):
    layers = min(layers, pieces)
    passes = -(-pieces // layers)
    return _cut(what, setting, times, numbers, strip, layers, passes, pieces - (passes - 1) * layers)


def _cut(what, setting, times, numbers, strip, layers, passes, last_layers):
    return {
        "what": what,
        "setting": setting,
        "times": times,
        "rows": numbers,
        "strip": strip,
        "layers": layers,
        "passes": passes,
        "last_layers": last_layers,
    }
