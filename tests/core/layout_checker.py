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
