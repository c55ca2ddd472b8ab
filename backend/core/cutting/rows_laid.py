"""Rows of a layout in their places on the cloth, in mm, and what is left round them."""

from ..ordering import in_order
from ..rounding import at_most


def lay(part):
    """Lay the rows that a part's search found.

    Returns: for each of its cloths, in order, its rows: [{y, height, strips:
    [{name, strip, x, y, length, width, turned}], pieces: [{reach, count, height,
    stack, strip}], reach}], highest first and like rows together; pieces are cut
    off by cross cuts, each with a stack of strips in it.
    """
    found = [[] for _ in part.cloths]
    for rows in part.search.layout:
        if rows.lying.mark is not None:
            found[rows.lying.mark] += [_pieces(part, rows)] * rows.times
    return [_stacked(part, index, rows) for index, rows in enumerate(found)]


def _pieces(part, rows):
    # (height, [(size, count, reach, height, turned, stack)]), highest and widest piece first
    cloth = part.cloths[rows.lying.mark]
    pieces, highest = [], 0.0
    for size, count in enumerate(rows.counts):
        if count:
            turned = rows.lying.turned(size)
            for reach, height, way in cloth.ways(part.strips[size]):
                if way == turned:
                    pieces.append((size, count, reach, height, turned, rows.lying.stack_of[size]))
                    highest = max(highest, height)
    pieces = _few_stacked(pieces, cloth.width)
    highest = max([height * stack for _, _, _, height, _, stack in pieces] + [highest])
    return highest, in_order(pieces, lambda piece: (-piece[3], -piece[2], piece[0]))


def _few_stacked(pieces, width):
    # only as many sizes lie over each other as must; what is left of whole stacks is a lower one
    whole = 0.0
    for piece in pieces:
        whole += piece[1] * piece[2]
    found = []
    for size, count, reach, height, turned, stack in in_order(pieces, lambda piece: piece[2] / piece[5]):
        if stack == 1 or at_most(whole, width):
            found.append((size, count, reach, height, turned, 1))
            continue
        stacks, rest = count // stack, count % stack
        whole -= (count - stacks - (1 if rest else 0)) * reach
        if stacks:
            found.append((size, stacks, reach, height, turned, stack))
        if rest:
            found.append((size, 1, reach, height, turned, rest))
    return found


def _stacked(part, index, rows):
    cloth, y, laid = part.cloths[index], 0.0, []
    for height, pieces in in_order(rows, lambda row: (-row[0], row[1])):
        x, strips, cuts = 0.0, [], []
        for size, count, reach, step, turned, stack in pieces:
            strip = part.strips[size]
            for _ in range(count):
                for over in range(stack):
                    strips.append({
                        "name": strip["name"],
                        "strip": part.strip_numbers[size],
                        "x": x + cloth.loss,
                        "y": y + over * step + cloth.loss,
                        "length": strip["length"],
                        "width": strip["width"],
                        "turned": turned,
                    })  # fmt: skip
                x += reach
            # a row on the print's repeat is higher than its strips, which are trimmed
            high = (strip["length"] if turned else strip["width"]) + 2 * cloth.loss
            number = part.strip_numbers[size]
            cuts.append({"reach": reach, "count": count, "height": high, "stack": stack, "strip": number})
        laid.append({"y": y, "height": height, "strips": strips, "pieces": cuts, "reach": x})
        y += height
    return laid


def length_of(rows):
    """Add up the height of laid rows."""
    return rows[-1]["y"] + rows[-1]["height"] if rows else 0.0


def offcuts_of(cloth, rows, length, strips):
    """List what is left of a cloth and large enough for some strip: [{x, y, width, length}].

    Takes: length, how much of the cloth there is, washed and squared.
    """
    found = []
    for row in rows:
        found.append((row["reach"], row["y"], cloth.width - row["reach"], row["height"]))
        x = 0.0
        for piece in row["pieces"]:
            for _ in range(piece["count"]):
                high = piece["height"] * piece["stack"]
                found.append((x, row["y"] + high, piece["reach"], row["height"] - high))
                x += piece["reach"]
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
