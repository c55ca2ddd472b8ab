"""On cloth with a nap, which way the pieces of each size lie: all alike."""

SMALL = 1e-6


def agrees(column, lying):
    """Say whether a filling lies as it was decided: lying is {(ladder, size): turned}."""
    kind = column.lying
    if kind.napped:
        for size, count in enumerate(column.counts):
            turned = kind.turned(size)
            if count and lying.get((kind.ladder, size), turned) != turned:
                return False
    return True


def sides_of(columns, amounts):
    """Add up, on napped ladders, how many pieces lie either way: {(ladder, size): (not turned, turned)}."""
    found = {}
    for column, amount in zip(columns, amounts):
        if column.kind >= 0 and column.lying.napped:
            for size, count in enumerate(column.counts):
                if count:
                    pair = (column.lying.ladder, size)
                    straight, turned = found.get(pair, (0.0, 0.0))
                    if column.lying.turned(size):
                        turned += count * amount
                    else:
                        straight += count * amount
                    found[pair] = (straight, turned)
    return found


def majority(undecided, sides, lying):
    """Decide all that is open as most pieces lie."""
    decided = dict(lying)
    for pair in undecided:
        if pair not in decided:
            straight, turned = sides.get(pair, (0.0, 0.0))
            decided[pair] = turned > straight
    return decided


def most_mixed(undecided, sides):
    """Find the pair of which most pieces lie the other way; None where all lie alike."""
    best, most = None, SMALL
    for pair in undecided:
        other = min(sides.get(pair, (0.0, 0.0)))
        if other > most:
            best, most = pair, other
    return best
