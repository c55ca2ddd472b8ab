"""On cloth with a nap, which way the pieces of each size lie: all alike."""

LEAST_MIXED = 1e-6  # pieces: less than that is what the linear programme's numbers are off by


def agrees(column, orientations):
    """Say whether a column's pieces lie as it was decided: orientations is {(family, size): turned}."""
    for pair, turned in column.orientations:
        if orientations.get(pair, turned) != turned:
            return False
    return True


def orientations_in(layout):
    """List each way that pieces of a size lie in napped families once: [((family, size), turned)]."""
    found = []
    for run in layout:
        if run.row_type.napped:
            for size, count in enumerate(run.counts):
                orientation = ((run.row_type.family, size), run.row_type.turned(size))
                if count and orientation not in found:
                    found.append(orientation)
    return found


def pieces_by_side(solution):
    """Add up, in napped families, how many pieces lie either way: {(family, size): (not turned, turned)}."""
    sides = {}
    for column, amount in solution:
        for run in column.runs:
            if run.row_type.napped:
                for size, count in enumerate(run.counts):
                    if count:
                        pair = (run.row_type.family, size)
                        straight, turned = sides.get(pair, (0.0, 0.0))
                        if run.row_type.turned(size):
                            turned += count * run.times * amount
                        else:
                            straight += count * run.times * amount
                        sides[pair] = (straight, turned)
    return sides


def orientations_of(layout):
    """Say which way the pieces of each size lie in napped families: {(family, size): turned}."""
    orientations = {}
    for run in layout:
        if run.row_type.napped:
            for size, count in enumerate(run.counts):
                if count:
                    orientations[(run.row_type.family, size)] = run.row_type.turned(size)
    return orientations


def majority(undecided, sides, orientations):
    """Decide all that is open as most pieces lie."""
    decided = dict(orientations)
    for pair in undecided:
        if pair not in decided:
            straight, turned = sides.get(pair, (0.0, 0.0))
            decided[pair] = turned > straight
    return decided


def most_mixed(undecided, sides):
    """Find the pair of which most pieces lie the other way; None where all lie alike."""
    best, most = None, LEAST_MIXED
    for pair in undecided:
        other = min(sides.get(pair, (0.0, 0.0)))
        if other > most:
            best, most = pair, other
    return best
