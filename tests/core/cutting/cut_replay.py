"""Make the cuts of a remnant one after another, as at the table, and look at what lies there then."""

CLOSE = 1e-6  # mm


def replay(width, length, cuts):
    """Make every cut on the pieces it names; returns the pieces that lie there at last.

    Each is a ruler laid from the near edge of a piece and a cut from edge to edge: it
    takes a piece away and leaves two. A piece that is not there, or a cut that does
    not pass through it, fails.
    """
    table = [(0.0, 0.0, width, length)]
    for cut in cuts:
        assert cut["times"] >= 1 and cut["setting"] > CLOSE
        assert 1 <= cut["layers"] <= len(cut["pieces"])
        assert (cut["passes"] - 1) * cut["layers"] + cut["last_layers"] == len(cut["pieces"])
        assert 1 <= cut["last_layers"] <= cut["layers"]
        for piece in cut["pieces"]:
            x, y, across, along = taken_from(table, piece)
            for _ in range(cut["times"]):
                if cut["what"] == "across":
                    assert cut["setting"] < along - CLOSE
                    table.append((x, y, across, cut["setting"]))
                    y, along = y + cut["setting"], along - cut["setting"]
                else:
                    assert cut["what"] == "along" and cut["setting"] < across - CLOSE
                    table.append((x, y, cut["setting"], along))
                    x, across = x + cut["setting"], across - cut["setting"]
            table.append((x, y, across, along))
    return table


def taken_from(table, piece):
    wanted = (piece["x"], piece["y"], piece["width"], piece["length"])
    [number] = [number for number, one in enumerate(table) if same(one, wanted)]
    return table.pop(number)


def same(one, other):
    return all(abs(side - wanted) < CLOSE for side, wanted in zip(one, other, strict=True))


def lying(strip):
    """Tell what a strip covers: (x, y, across, along)."""
    sides = (strip["length"], strip["width"])
    return (strip["x"], strip["y"], *(sides[::-1] if strip["turned"] else sides))


def check_cut_apart(width, length, given, apart):
    """Check that the cuts leave every strip by itself and as large as given, and nothing else but offcuts."""
    table = replay(width, length, apart["cuts"])
    for strip in apart["strips"]:
        x, y, across, along = lying(strip)
        taken_from(table, {"x": x, "y": y, "width": across, "length": along})
    for offcut in apart["offcuts"]:
        taken_from(table, offcut)
    assert table == []
    kinds = sorted((strip["size"], strip["length"], strip["width"], strip["turned"]) for strip in given)
    assert kinds == sorted(
        (strip["size"], strip["length"], strip["width"], strip["turned"]) for strip in apart["strips"]
    )
    area = sum(strip["length"] * strip["width"] for strip in apart["strips"])
    area += sum(offcut["width"] * offcut["length"] for offcut in apart["offcuts"])
    assert abs(area - width * length) < CLOSE * (width + length) * (1 + len(apart["cuts"]))
