"""How likely a sample holds no more bad pieces than so many.

Products and ratios alone, so that every runtime gets the same to the last bit.
"""


def from_a_lot(most, drawn, bad, lot):
    """Tell the chance of at most so many bad ones among pieces drawn from a lot (hypergeometric).

    Takes: drawn and bad, at most `lot`.
    Example: from_a_lot(0, 1, 1, 4) == 0.75
    """
    good = lot - bad
    fewest = max(0, drawn - good)
    if most < fewest:
        return 0.0
    if most >= min(drawn, bad):
        return 1.0
    chance = _of_the_fewest(fewest, drawn, bad, lot)
    below = chance
    for count in range(fewest, most):
        chance = chance * (bad - count) * (drawn - count) / ((count + 1) * (good - drawn + count + 1))
        below += chance
    return min(1.0, below)


def _of_the_fewest(fewest, drawn, bad, lot):
    # the chance of the fewest bad ones that there can be, over whichever has fewer factors
    chance = 1.0
    good = lot - bad
    if not fewest:
        shorter, longer = min(drawn, bad), max(drawn, bad)
        for index in range(shorter):
            chance = chance * (lot - longer - index) / (lot - index)
        return chance
    # all good ones are drawn: of those left behind none is good
    left = lot - drawn
    for index in range(min(good, left)):
        chance = chance * (lot - max(good, left) - index) / (lot - index)
    return chance


def from_a_long_run(most, drawn, share):
    """Tell the chance of at most so many bad ones among pieces of a long run (binomial).

    Takes: share, of the run that is bad, below 1.
    Example: from_a_long_run(0, 2, 0.5) == 0.25
    """
    if most >= drawn:
        return 1.0
    chance = 1.0
    for _ in range(drawn):
        chance = chance * (1 - share)
    below = chance
    for count in range(most):
        chance = chance * (drawn - count) / (count + 1) * share / (1 - share)
        below += chance
    return min(1.0, below)
