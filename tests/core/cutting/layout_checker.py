"""An independent check of a layout of one strip size, written from the definition alone.

A strip lies inside the cloth and on no other; one set of cuts right through
parts the cloth into rows, one set of cross cuts parts each row, and what each
part holds is one strip, perhaps trimmed.
"""

SLACK = 1e-6  # mm, below anything a blade can do


def check_layout(width, length, strip, placed, first_cuts, nap=False):
    """Assert that strips of (length, width) lie as a two-stage guillotine layout.

    Takes: placed, [{x, y, length, width, turned}], x across and y along the
    cloth, length lying along it where turned; first_cuts, across or along.
    """
    boxes = [_box(spot, strip) for spot in placed]
    for left, near, right, far in boxes:
        assert left >= -SLACK and near >= -SLACK, "begins outside"
        assert right <= width + SLACK and far <= length + SLACK, "ends outside"
    _assert_apart(boxes)
    axis = {"across": 1, "along": 0}[first_cuts]
    for row in _parts(boxes, axis):
        for part in _parts(row, 1 - axis):
            assert len(part) == 1, "two stages of cuts leave strips together"
    if nap:
        assert len({spot["turned"] for spot in placed}) <= 1, "strips lie both ways"


def _box(spot, strip):
    assert (spot["length"], spot["width"]) == strip, "not the size asked for"
    across, along = strip[::-1] if spot["turned"] else strip
    return spot["x"], spot["y"], spot["x"] + across, spot["y"] + along


def _assert_apart(boxes):
    ordered = sorted(boxes)
    for number, one in enumerate(ordered):
        for other in ordered[number + 1 :]:
            if other[0] >= one[2] - SLACK:
                break
            assert other[1] >= one[3] - SLACK or one[1] >= other[3] - SLACK, "strips overlap"


def _parts(boxes, axis):
    # cut wherever a straight line right through meets no strip
    parts, reach = [], None
    for box in sorted(boxes, key=lambda box: box[axis]):
        if reach is None or box[axis] >= reach - SLACK:
            parts.append([])
            reach = box[axis + 2]
        parts[-1].append(box)
        reach = max(reach, box[axis + 2])
    return parts


def check_mix(given, result):
    """Assert that what remnant-best-mix lays out is a layout of the sizes, and worth what it says."""
    sizes, counts = given["sizes"], [0] * len(given["sizes"])
    boxes, worth = [], 0
    for spot in result["placed"]:
        size = sizes[spot["size"]]
        counts[spot["size"]] += 1
        worth += size["value"]
        assert given.get("rotate", True) or not spot["turned"], "turned where it may not be"
        boxes.append(_box(spot, (size["length"], size["width"])))
    for left, near, right, far in boxes:
        assert left >= -SLACK and near >= -SLACK, "begins outside"
        assert right <= given["width"] + SLACK and far <= given["length"] + SLACK, "ends outside"
    for size, count in zip(sizes, counts, strict=True):
        assert size.get("quantity") is None or count <= size["quantity"], "more than the quantity"
    assert abs(worth - result["value"]) <= 1e-9 * max(1, worth), "worth something else"
    assert result["value"] <= result["bound"], "worth more than the bound"
    assert result["optimal"] == (result["value"] == result["bound"]), "optimal, and yet not"
    _assert_apart(boxes)
    stages = given.get("stages", "any")
    axis = {"across": 1, "along": 0}[result["first_cuts"]]
    assert _cut_apart(boxes, axis, None if stages == "any" else int(stages)), "cuts leave strips together"


def _cut_apart(boxes, axis, stages):
    # cuts right through, turn by turn, until every part holds one strip at most
    groups, stuck = [boxes], 0
    while any(len(group) > 1 for group in groups):
        if stages == 0 or stuck == 2:
            return False
        parts = [part for group in groups for part in _parts(group, axis)]
        stuck = stuck + 1 if len(parts) == len(groups) else 0
        groups, axis, stages = parts, 1 - axis, None if stages is None else stages - 1
    return True
