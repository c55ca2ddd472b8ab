"""On cloth with a nap, which way the pieces of each size lie: all alike."""

SMALL = 1e-6


def agrees(column, lying):
    """Say whether rows lie as it was decided: lying is {(ladder, size): turned}."""
    for pair, turned in column.lying:
        if lying.get(pair, turned) != turned:
            return False
    return True


def ways_of(layout):
    """List each way that pieces of a size lie on napped ladders once: [((ladder, size), turned)]."""
    ways = []
    for rows in layout:
        if rows.lying.napped:
            for size, count in enumerate(rows.counts):
                way = ((rows.lying.ladder, size), rows.lying.turned(size))
                if count and way not in ways:
                    ways.append(way)
    return ways


def sides_of(found):
    """Add up, on napped ladders, how many pieces lie either way: {(ladder, size): (not turned, turned)}."""
    sides = {}
    for column, amount in found:
        for rows in column.rows:
            if rows.lying.napped:
                for size, count in enumerate(rows.counts):
                    if count:
                        pair = (rows.lying.ladder, size)
                        straight, turned = sides.get(pair, (0.0, 0.0))
                        if rows.lying.turned(size):
                            turned += count * rows.times * amount
                        else:
                            straight += count * rows.times * amount
                        sides[pair] = (straight, turned)
    return sides


def lying_of(layout):
    """Say which way the pieces of each size lie on napped ladders: {(ladder, size): turned}."""
    lying = {}
    for rows in layout:
        if rows.lying.napped:
            for size, count in enumerate(rows.counts):
                if count:
                    lying[(rows.lying.ladder, size)] = rows.lying.turned(size)
    return lying


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
