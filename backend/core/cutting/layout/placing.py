"""Rows of a layout in their places on the cloth, in mm, and what is left round them."""

from ...numbers.ordering import in_order
from ...numbers.rounding import at_most
from .nested_row import NestedRow


class Laid:
    """A layout of a component in its places.

    Has: rows, {number of the cloth: its rows, see `lay`}; left_out, how many strips of each
    size, and their area, as the search counts it.
    """

    def __init__(self, component, layout):
        self.rows = {}
        for number, own in zip(component.cloth_numbers, lay(component, layout)):
            self.rows[number] = own
        self.left_out = component.left_out_of(layout)
        self.area = component.area_of(self.left_out)


def lay(component, layout):
    """Lay the rows of a component's layout.

    Returns: for each of its cloths, in order, its rows: [{y, height, strips:
    [{name, strip, x, y, length, width, turned}], pieces: [{extent, count, height,
    stack, strip, over}], extent}], highest first and like rows together; pieces are cut
    off by cross cuts, each with a stack of strips in it, and over them, as over tells,
    more of others: [{extent, height, stack, strip}].
    """
    found = [[] for _ in component.cloths]
    for run in layout:
        if run.row_type.origin is not None:
            found[run.row_type.origin] += [(run.row_type.last,) + _pieces(component, run)] * run.times
    return [_placed(component, index, rows) for index, rows in enumerate(found)]


def _pieces(component, run):
    # (height, [(size, count, extent, height, turned, stack, over)]), highest and widest piece first
    row_type = run.row_type
    cloth = component.cloths[row_type.origin]
    if isinstance(row_type, NestedRow):
        return _nested(component, run)
    pieces, highest = [], 0.0
    for size, count in enumerate(run.counts):
        for number, turned, stack in _lying(row_type, size, count):
            for extent, height, way in cloth.ways(component.strips[size]):
                if way == turned and number:
                    pieces.append((size, number, extent, height, turned, stack))
                    highest = max(highest, height)
    pieces = _few_stacked(pieces, cloth.width)
    highest = max([height * stack for _, _, _, height, _, stack, _ in pieces] + [highest])
    return highest, in_order(pieces, _highest_first)


def _highest_first(piece):
    return -piece[3], -piece[2], piece[0]


def _nested(component, run):
    # the same of a row of mixed stacks, the widest strips of each below
    cloth = component.cloths[run.row_type.origin]
    pieces, highest = [], 0.0
    for count, stack in run.row_type.columns_of(run.counts):
        levels, high = [], 0.0
        for size, turned, over in stack:
            for extent, height, way in cloth.ways(component.strips[size]):
                if way == turned:
                    levels.append((size, extent, height, turned, over))
                    high += height * over
        size, extent, height, turned, over = levels[0]
        pieces.append((size, count, extent, height, turned, over, levels[1:]))
        highest = max(highest, high)
    return highest, in_order(pieces, _highest_first)


def _lying(row_type, size, count):
    # (how many, turned, how many over each other) of the pieces of a size in a row
    if not count:
        return []
    first, rest = count, 0
    if size in row_type.beside:
        first, rest, _ = row_type.parted(size, count)
    lying = [(first, row_type.turned(size), row_type.stack_of[size])]
    return lying + [(rest,) + row_type.beside[size][1:]] if rest else lying


def _few_stacked(pieces, width):
    # only as many sizes lie over each other as must; what is left of whole stacks is a lower one
    whole = 0.0
    for piece in pieces:
        whole += piece[1] * piece[2]
    found = []
    for size, count, extent, height, turned, stack in in_order(pieces, lambda piece: piece[2] / piece[5]):
        if stack == 1 or at_most(whole, width):
            found.append((size, count, extent, height, turned, 1, []))
            continue
        stacks, rest = count // stack, count % stack
        whole -= (count - stacks - (1 if rest else 0)) * extent
        if stacks:
            found.append((size, stacks, extent, height, turned, stack, []))
        if rest:
            found.append((size, 1, extent, height, turned, rest, []))
    return found


def _placed(component, index, rows):
    cloth, y, laid = component.cloths[index], 0.0, []
    rows = in_order(rows, lambda row: (row[0], -row[1], row[2]))
    for number, (_, height, pieces) in enumerate(rows):
        # the next row starts on the print's repeat, and none follows the last
        height = cloth.row_height(height) if number + 1 < len(rows) else height
        x, strips, cuts = 0.0, [], []
        for size, count, extent, step, turned, stack, over in pieces:
            levels = [(size, extent, step, turned, stack)] + over
            for _ in range(count):
                strips += _over_each_other(component, cloth, x, y, levels)
                x += extent
            levels = [
                {"extent": own, "height": high, "stack": times, "strip": component.strip_numbers[one]}
                for one, own, high, _, times in levels
            ]
            piece = levels[0]
            piece.update({"count": count, "over": levels[1:]})
            cuts.append(piece)
        laid.append({"y": y, "height": height, "strips": strips, "pieces": cuts, "extent": x})
        y += height
    return laid


def _over_each_other(component, cloth, x, y, levels):
    # the strips of one piece, from below
    strips = []
    for size, _, step, turned, stack in levels:
        strip = component.strips[size]
        for over in range(stack):
            strips.append({
                "name": strip["name"],
                "strip": component.strip_numbers[size],
                "x": x + cloth.loss,
                "y": y + over * step + cloth.loss,
                "length": strip["length"],
                "width": strip["width"],
                "turned": turned,
            })  # fmt: skip
        y += stack * step
    return strips


def levels_of(piece):
    """List what lies over each other in a piece, from below: [{extent, height, stack, strip}]."""
    return [piece] + piece["over"]


def length_of(rows):
    """Add up the height of laid rows."""
    return rows[-1]["y"] + rows[-1]["height"] if rows else 0.0


def offcuts_of(cloth, rows, length, strips):
    """List what is left of a cloth and large enough for some strip: [{x, y, width, length}].

    Takes: length, how much of the cloth there is, washed and squared.
    """
    found = []
    for row in rows:
        found.append((row["extent"], row["y"], cloth.width - row["extent"], row["height"]))
        x = 0.0
        for piece in row["pieces"]:
            for _ in range(piece["count"]):
                high = 0.0
                for level in levels_of(piece):
                    beside, own = piece["extent"] - level["extent"], level["height"] * level["stack"]
                    found.append((x + level["extent"], row["y"] + high, beside, own))
                    high += own
                found.append((x, row["y"] + high, piece["extent"], row["height"] - high))
                x += piece["extent"]
    if rows:
        used = length_of(rows)
        found.append((0.0, used, cloth.width, length - used))
    return [
        {"x": x, "y": y, "width": width, "length": high}
        for x, y, width, high in found
        if _holds_some(width, high, strips)
    ]


def _holds_some(width, length, strips):
    for strip in strips:
        for one, other in ((strip["length"], strip["width"]), (strip["width"], strip["length"])):
            if at_most(one, width) and at_most(other, length):
                return True
    return False
