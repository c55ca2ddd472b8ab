"""The straight cuts, each right through its piece, that cut a layout's strips apart."""

from ...numbers.ordering import in_order
from ...numbers.rounding import at_most, half_up
from .dynamic_programme import ACROSS, ALONG

# a cut runs across the cloth or along it, and parts what lies the other way
WAYS = ("across", "along")
PARTS = (ALONG, ACROSS)
# like pieces are told by thousandths of a mm
FINE = 1000


class Piece:
    """Like pieces of cloth.

    Their sides are (across, along); their strips (x, y, across, along, number), as
    seen from the near left corner of each; the corners (x, y) are those of all.
    """

    def __init__(self, sides, boxes, corners):
        self.sides = sides
        self.boxes = boxes
        self.corners = corners

    def is_strip(self):
        """Say whether nothing is left to cut: it is one strip and no more."""
        if len(self.boxes) != 1:
            return False
        box = self.boxes[0]
        return at_most(self.sides[ACROSS], box[2]) and at_most(self.sides[ALONG], box[3])

    def told(self):
        """Tell where each lies."""
        across, along = self.sides
        return [{"x": x, "y": y, "width": across, "length": along} for x, y in self.corners]


def cut_apart(width, length, strips, first, free, layers):
    """List the cuts that free every strip of a remnant, in the order to make them.

    A piece is cut one way at every place where a cut meets no strip, and what comes of
    it the other way. The largest is cut off first and like ones together, so that
    the ruler is set seldom; like pieces are stacked for the cuts that follow. What is
    left over lies at the far end, in one piece.
    Takes: strips, [{"size", "x", "y", "length", "width", "turned"}]; first, the way
    of WAYS that the first cuts run; free, whether they may run the other way where
    that leaves a larger piece over; layers, like pieces to cut at once at most.
    Returns: {"cuts": [{"what", of WAYS; "setting", "times", "pieces", [{"x", "y",
    "width", "length"}] as they are then; "size", whose strips come off, or None;
    "layers", "passes", "last_layers"}], "strips", as given but for where they lie
    now, "rows", what the first cuts across leave that has strips, and "offcuts", what is
    left over: each [{"x", "y", "width", "length"}]}; None where no such cuts free them.
    """
    cuts, laid, rows, offcuts = [], [], None, []
    whole = Piece((width, length), [_box(strip, number) for number, strip in enumerate(strips)], [(0.0, 0.0)])
    if not _all_inside(whole):
        return None
    waiting = [(whole, _first_way(whole, first, free))]
    while waiting:
        piece, way = waiting.pop()
        if not piece.boxes:
            offcuts += piece.told()
        elif piece.is_strip():
            strip = strips[piece.boxes[0][4]]
            laid += [dict(strip, x=x, y=y) for x, y in piece.corners]
        else:
            parts = _come_apart(piece, way, strips)
            if len(parts) < 2:
                way = 1 - way
                parts = _come_apart(piece, way, strips)
            if len(parts) < 2:
                return None
            cuts += _cuts(piece, way, parts, strips, layers)
            inner = _like_together(piece, way, parts)
            if rows is None and WAYS[way] == "across":
                rows = [row for part in inner if part.boxes for row in part.told()]
            rows = rows or whole.told()
            waiting += [(part, 1 - way) for part in inner[::-1]]
    return {"cuts": cuts, "strips": laid, "rows": rows or whole.told(), "offcuts": offcuts}


def _box(strip, number):
    across, along = strip["length"], strip["width"]
    if strip["turned"]:
        across, along = along, across
    return (strip["x"], strip["y"], across, along, number)


def _all_inside(whole):
    width, length = whole.sides
    for x, y, across, along, _ in whole.boxes:
        if not (at_most(x + across, width) and at_most(y + along, length)):
            return False
    return True


def _first_way(whole, first, free):
    way = WAYS.index(first)
    if not free:
        return way
    across = along = 0.0
    for box in whole.boxes:
        across, along = max(across, box[0] + box[2]), max(along, box[1] + box[3])
    # what cuts across leave over is as wide as the cloth, what cuts along leave is as long
    width, length = whole.sides
    left = (width * (length - along), length * (width - across))
    return way if at_most(left[1 - way], left[way]) else 1 - way


def _come_apart(piece, way, strips):
    # the largest first, like ones together, what has no strip at last
    axis = PARTS[way]
    parts, together, begin, reach = [], [], 0.0, 0.0
    for box in in_order(piece.boxes, lambda box: box[axis]):
        if together and at_most(reach, box[axis]):
            parts.append(_part(piece, axis, begin, reach, together))
            together = []
        if not together:
            begin = reach = box[axis]
        together.append(box)
        reach = max(reach, box[axis] + box[2 + axis])
    parts.append(_part(piece, axis, begin, reach, together))
    parts = _largest_first(parts, axis, strips)
    left = piece.sides[axis]
    for part in parts:
        left -= part.sides[axis]
    if not at_most(piece.sides[axis], piece.sides[axis] - left):
        parts.append(Piece(_with_side(piece.sides, axis, left), [], None))
    return parts


def _part(piece, axis, begin, reach, boxes):
    # a strip alone is as large as it is, whatever adding up made of it
    side = boxes[0][2 + axis] if len(boxes) == 1 else reach - begin
    return Piece(_with_side(piece.sides, axis, side), [_moved(box, axis, -begin) for box in boxes], None)


def _moved(place, axis, by):
    moved = list(place)
    moved[axis] += by
    return tuple(moved)


def _with_side(sides, axis, side):
    return (side, sides[ALONG]) if axis == ACROSS else (sides[ACROSS], side)


def _largest_first(parts, axis, strips):
    first = {}
    for number, part in enumerate(parts):
        part.mark = _mark(part, strips)
        first[part.mark] = first.get(part.mark, number)
    return in_order(parts, lambda part: (-half_up(part.sides[axis] * FINE), first[part.mark]))


def _mark(piece, strips):
    # alike where strips of the same sizes lie in it the same way
    rows = []
    for box in piece.boxes:
        strip = strips[box[4]]
        rows.append((half_up(box[1] * FINE), half_up(box[0] * FINE), strip["size"], int(strip["turned"])))
    sides = [half_up(side * FINE) for side in piece.sides]
    return (sides[ACROSS], sides[ALONG], tuple(in_order(rows, lambda row: row)))


def _like_together(piece, way, parts):
    axis, taken, together = PARTS[way], 0.0, []
    for part in parts:
        corners = [_moved(corner, axis, taken) for corner in piece.corners]
        taken += part.sides[axis]
        if together and part.boxes and part.mark == together[-1].mark:
            together[-1].corners += corners
        else:
            part.corners = corners
            together.append(part)
    return together


def _cuts(piece, way, parts, strips, layers):
    axis, taken, cuts, before = PARTS[way], 0.0, [], None
    # the last part is what the last cut leaves
    for part in parts[:-1]:
        size = strips[part.boxes[0][4]]["size"] if part.is_strip() else None
        run = (half_up(part.sides[axis] * FINE), size)
        if run == before:
            cuts[-1]["times"] += 1
        else:
            left = _with_side(piece.sides, axis, piece.sides[axis] - taken)
            corners = [_moved(corner, axis, taken) for corner in piece.corners]
            cuts.append(_cut(way, part.sides[axis], Piece(left, [], corners).told(), size, layers))
        before = run
        taken += part.sides[axis]
    return cuts


def _cut(way, setting, pieces, size, layers):
    layers = min(layers, len(pieces))
    passes = -(-len(pieces) // layers)
    return {
        "what": WAYS[way],
        "setting": setting,
        "times": 1,
        "pieces": pieces,
        "size": size,
        "layers": layers,
        "passes": passes,
        "last_layers": len(pieces) - (passes - 1) * layers,
    }
