"""What of each cloth can be cut, and which ways a strip may lie on it."""

from ...declaring.errors import Problems, problem
from ...numbers.rounding import at_most, step_up

LEAST_REPEAT = 1  # mm: a print repeats in millimetres or not at all


class Cloth:
    """A cloth as it is cut: washed, its selvedges off, its ends square.

    Has: width and length in mm, length None for a bolt; kept, the share of a
    length that the wash leaves; loss, what tearing frays of each edge; name, repeat
    and squaring as they were given.
    """

    def __init__(self, given, tear_loss):
        self.given = given
        self.kept = 1 - given["shrink_length"] / 100
        self.width = given["width"] * (1 - given["shrink_width"] / 100) - 2 * given["selvedge"]
        self.length = None
        if given["length"] is not None:
            self.length = given["length"] * self.kept - given["squaring"]
        self.loss = tear_loss if given["tear"] else 0.0
        self.name, self.repeat, self.squaring = given["name"], given["repeat"], given["squaring"]

    def cut_to(self, length):
        """Make the same cloth with so much of it to be cut, washed and squared."""
        piece = Cloth(self.given, self.loss)
        piece.length = length
        return piece

    def ways(self, strip):
        """List the ways a strip may lie: [(extent, height, turned)], its size with what tearing frays.

        A row that another follows is as high as `row_height` says, the last one as its strips.
        """
        length, width = strip["length"] + 2 * self.loss, strip["width"] + 2 * self.loss
        wanted = [strip["direction"], self.given["stretch"]]
        ways = [(length, width, False)]
        # a square lies along only where that is asked
        if strip["length"] != strip["width"] or "along" in wanted:
            ways.append((width, length, True))
        if "across" in wanted:
            ways = [way for way in ways if not way[2]]
        if "along" in wanted:
            ways = [way for way in ways if way[2]]
        return [
            (extent, height, turned)
            for extent, height, turned in ways
            if at_most(extent, self.width) and (self.length is None or at_most(height, self.length))
        ]

    def row_height(self, height):
        """Round a row up, so that the next one starts on the print's repeat."""
        return step_up(height, self.repeat) if self.repeat else height

    def height_of(self, strip, turned):
        """Return how high a strip lies, with what tearing frays, not rounded up to a repeat."""
        return (strip["length"] if turned else strip["width"]) + 2 * self.loss

    def length_needed(self, used):
        """Turn a length of rows into the length of bolt it takes before the wash."""
        return self.washed_length(used) / self.kept if used else 0.0

    def washed_length(self, used):
        """Return the length of washed bolt that rows take with its squaring; of nothing, nothing."""
        return used + self.squaring if used else 0.0

    def usable_length(self, bought):
        """Turn a length of bolt that is bought into what of it can be cut, washed and squared."""
        return bought * self.kept - self.squaring

    def length_to_buy(self, needed):
        """Round a length of bolt that is needed up to what the shop cuts; of nothing, nothing."""
        if not needed:
            return 0.0
        return max(step_up(needed, self.given["shop_increment"]), self.given["minimum_cut"])


def cloths_of(given):
    """Make the cloths of a plan.

    Raises: Problems where the trims leave nothing, or a repeat is none.
    """
    cloths = [Cloth(row, given["tear_loss"]) for row in given["cloths"]]
    problems = []
    for index, cloth in enumerate(cloths):
        path, row = "cloths." + str(index), cloth.given
        if cloth.width <= 0:
            taken = row["width"] - cloth.width
            problems.append(problem(path + ".width", "no_cloth_left", taken, None, "length"))
        if cloth.length is not None and cloth.length <= 0:
            taken = row["length"] - cloth.length
            problems.append(problem(path + ".length", "no_length_left", taken, None, "length"))
        if 0 < row["repeat"] < LEAST_REPEAT:
            problems.append(problem(path + ".repeat", "lowest", row["repeat"], LEAST_REPEAT, "length"))
    if problems:
        raise Problems(problems)
    return cloths


def may_be_cut_from(strip, cloth):
    """Say whether a strip's list of cloths allows this one."""
    return strip["cloths"] is None or cloth.name in strip["cloths"]


def components_of(cloths, strips):
    """Split a plan where nothing is shared: [(strips, cloths)] by number, without strips that fit nowhere."""
    fits = [
        [index for index, cloth in enumerate(cloths) if may_be_cut_from(strip, cloth) and cloth.ways(strip)]
        for strip in strips
    ]
    components = []
    for number, own in enumerate(fits):
        if own:
            joined, apart = ([number], own), []
            for component in components:
                if [index for index in component[1] if index in joined[1]]:
                    more = [index for index in component[1] if index not in joined[1]]
                    joined = (component[0] + joined[0], joined[1] + more)
                else:
                    apart.append(component)
            components = apart + [joined]
    return components
