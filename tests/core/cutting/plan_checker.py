"""An independent check of what cutting-layout answers, written from the definition alone.

All rules are those of the trade: strips lie inside the cloth that is left after
washing and trimming, apart from each other, in rows right across that are then
cross-cut; quantities, grain, nap, print and allowed cloths are kept; what is
bought is what the rows need; the cuts, made in their order, give the strips.
"""

import math
from itertools import groupby

from tests.core.cutting.layout_checker import SLACK, _assert_apart, _parts

CLOSE = 1e-9


def check_plan(given, result):
    """Assert that an answer of cutting-layout is a layout of what was asked, and no false claim."""
    cloths, strips = given["cloths"], given["strips"]
    assert [laid["cloth"] for laid in result["cloths"]] == list(range(len(cloths))), "other cloths"
    counts = [0] * len(strips)
    for cloth, laid in zip(cloths, result["cloths"], strict=True):
        assert laid["name"] == cloth["name"], "another cloth's name"
        _check_cloth(given, cloth, laid, counts)
    _check_quantities(given, result, counts)
    _check_bought(cloths, result)
    _check_waste(cloths, result)
    settings = [cut["setting"] for laid in result["cloths"] for cut in laid["cuts"]]
    assert result["settings"] <= len(settings), "more settings than cuts"


# one cloth


def _check_cloth(given, cloth, laid, counts):
    width = cloth["width"] * (1 - cloth.get("shrink_width", 0) / 100) - 2 * cloth.get("selvedge", 0)
    assert _close(laid["usable_width"], width), "another usable width"
    length = _usable_length(cloth)
    if length is None:
        assert laid["usable_length"] is None, "a bolt has no usable length"
    else:
        assert _close(laid["usable_length"], length), "another usable length"
    loss = given.get("tear_loss", 5) if cloth.get("tear") else 0
    end, boxes, strips = 0, [], given["strips"]
    for row in laid["rows"]:
        assert abs(row["y"] - end) <= SLACK, "rows do not follow each other"
        end = row["y"] + row["height"]
        assert row["strips"], "an empty row"
        _assert_on_repeat(cloth, row)
        if row is laid["rows"][-1]:
            highest = max(_reach(strips[spot["strip"]], spot["turned"])[1] for spot in row["strips"])
            stacked = len({spot["y"] for spot in row["strips"]}) > 1
            assert stacked or _close(row["height"], highest + 2 * loss), (
                "the last row is higher than its strips"
            )
        boxes += [_check_strip(given, cloth, row, spot, width, loss, counts) for spot in row["strips"]]
    assert _close(laid["used_length"], end), "another used length"
    if length is not None:
        assert end <= length + SLACK, "rows end outside the cloth"
    _assert_apart(boxes)
    for row in laid["rows"]:
        within = [box for box in boxes if row["y"] - SLACK <= box[1] < row["y"] + row["height"] - SLACK]
        assert len(within) == len(row["strips"]), "a strip in another row"
        _assert_cut_apart(_parts(within, 0), given.get("stages", 2))
    _assert_one_way(cloth, laid)
    _check_cuts(given, cloth, laid, width, length, loss)
    _check_offcuts(given, cloth, laid, width, boxes)


def _assert_cut_apart(pieces, stages):
    # what cross cuts leave is a strip, or with a third stage a stack of them
    if stages == 2:
        assert all(len(piece) == 1 for piece in pieces), "two stages of cuts leave strips together"
    else:
        assert all(len(strip) == 1 for piece in pieces for strip in _parts(piece, 1)), "a stack not cut apart"


def _usable_length(cloth):
    if cloth.get("length") is None:
        return None
    return cloth["length"] * (1 - cloth.get("shrink_length", 0) / 100) - cloth.get("squaring", 0)


def _assert_on_repeat(cloth, row):
    repeat = cloth.get("repeat", 0)
    if repeat:
        assert abs(row["y"] / repeat - round(row["y"] / repeat)) < 1e-6, "a row begins beside the repeat"


def _check_strip(given, cloth, row, spot, width, loss, counts):
    strip = given["strips"][spot["strip"]]
    counts[spot["strip"]] += 1
    assert spot["name"] == strip["name"], "another strip's name"
    assert (spot["length"], spot["width"]) == (strip["length"], strip["width"]), "not the size asked for"
    allowed = strip.get("cloths")
    assert allowed is None or cloth["name"] in allowed, "a cloth that is not allowed"
    assert spot["turned"] in _ways(strip, cloth), "against its direction"
    across, along = _reach(strip, spot["turned"])
    box = (spot["x"] - loss, spot["y"] - loss, spot["x"] + across + loss, spot["y"] + along + loss)
    assert box[0] >= -SLACK and box[2] <= width + SLACK, "outside the width"
    assert box[1] >= row["y"] - SLACK and box[3] <= row["y"] + row["height"] + SLACK, "outside its row"
    return box


def _ways(strip, cloth):
    # how a strip's length may lie on a cloth: turned or not
    direction, stretch = strip.get("direction", "best"), cloth.get("stretch", "none")
    ways = {"best": {False, True}, "across": {False}, "along": {True}}[direction]
    return ways & {"none": {False, True}, "across": {False}, "along": {True}}[stretch]


def _reach(strip, turned):
    return (strip["width"], strip["length"]) if turned else (strip["length"], strip["width"])


def _assert_one_way(cloth, laid):
    if not cloth.get("nap"):
        return
    spots = [spot for row in laid["rows"] for spot in row["strips"]]
    for number in {spot["strip"] for spot in spots}:
        ways = {spot["turned"] for spot in spots if spot["strip"] == number}
        assert len(ways) == 1, "strips of one size lie both ways on a nap"


# the cuts, made in their order


def _check_cuts(given, cloth, laid, width, length, loss):
    kinds = [cut["what"] for cut in laid["cuts"]]
    first_other = next((n for n, kind in enumerate(kinds) if kind != "row"), len(kinds))
    assert "row" not in kinds[first_other:], "rows are cut first"
    single = bool(cloth.get("tear"))
    _check_row_cuts(laid, length, 1 if single else cloth.get("fold", 1))
    most = 1 if single else cloth.get("layers", 1)
    for cut in laid["cuts"]:
        alike = {_row_key(laid["rows"][number]) for number in cut["rows"]}
        if cut["what"] != "row":
            assert len(alike) == 1, "unlike rows are cut together"
            assert 1 <= cut["last_layers"] <= cut["layers"] <= most, "more layers than asked"
    for number, row in enumerate(laid["rows"]):
        own = [cut for cut in laid["cuts"] if number in cut["rows"]]
        _check_cross_cuts(given, row, [cut for cut in own if cut["what"] == "cross"], width, loss)
        stacks = _stacks(row)
        _check_apart(given, row, stacks, [cut for cut in own if cut["what"] == "stack"], loss)
        _check_trims(given, row, stacks, [cut for cut in own if cut["what"] == "trim"], loss)


def _row_key(row):
    return (round(row["height"], 6), tuple((spot["strip"], spot["turned"]) for spot in row["strips"]))


def _check_row_cuts(laid, length, fold):
    cuts, at, cut_rows = [cut for cut in laid["cuts"] if cut["what"] == "row"], 0, []
    for cut in cuts:
        assert cut["layers"] == cut["last_layers"] == fold and cut["passes"] == 1, "another fold"
        assert cut["rows"] == list(range(at, at + len(cut["rows"]))), "rows out of order"
        for number in cut["rows"]:
            assert _close(laid["rows"][number]["height"], cut["setting"]), "a row of another height"
        ends_at_edge = length is not None and abs(_end(laid["rows"][cut["rows"][-1]]) - length) <= SLACK
        assert cut["times"] == len(cut["rows"]) - ends_at_edge, "cut another number of times"
        cut_rows += cut["rows"]
        at += len(cut["rows"])
    left = laid["rows"][len(cut_rows) :]
    # only a single last row that ends where the cloth does needs no cut
    assert len(left) <= 1, "rows that are not cut"
    for row in left:
        assert length is not None and abs(_end(row) - length) <= SLACK, "a row that is not cut"


def _end(row):
    return row["y"] + row["height"]


def _check_cross_cuts(given, row, cuts, width, loss):
    # from the left, every strip or stack by its own setting; none at the very edge
    wanted = []
    for stack in _stacks(row):
        reaches = [
            (spot["strip"], _reach(given["strips"][spot["strip"]], spot["turned"])[0] + 2 * loss)
            for spot in stack
        ]
        assert max(reach for _, reach in reaches) <= reaches[0][1] + SLACK, "wider strips over a narrow one"
        wanted.append(reaches[0])
    reached = sum(reach for _, reach in wanted)
    if abs(reached - width) <= SLACK:
        wanted.pop()
    made = [(cut["strip"], cut["setting"]) for cut in cuts for _ in range(cut["times"])]
    assert len(made) == len(wanted), "another number of cross cuts"
    for (strip, setting), (number, reach) in zip(made, wanted, strict=True):
        assert strip == number and _close(setting, reach), "a cross cut elsewhere"
    for cut in cuts:
        assert (cut["passes"] - 1) * cut["layers"] + cut["last_layers"] == len(cut["rows"]), "other passes"


def _stacks(row):
    # the strips that lie over each other, from the left
    stacks = {}
    for spot in sorted(row["strips"], key=lambda spot: (spot["x"], spot["y"])):
        stacks.setdefault(spot["x"], []).append(spot)
    return list(stacks.values())


def _check_apart(given, row, stacks, cuts, loss):
    # each stack by the height of its strips, like ones one after the other; the last needs no cut
    # where it ends with the row
    wanted = {}
    for stack in stacks:
        left = row["height"]
        for (number, turned), alike in groupby(stack, lambda spot: (spot["strip"], spot["turned"])):
            height = _reach(given["strips"][number], turned)[1] + 2 * loss
            count = len(list(alike))
            left -= count * height
            key = (number, round(height, 6), count - (abs(left) <= SLACK))
            if len(stack) > 1 and key[2]:
                wanted[key] = wanted.get(key, 0) + 1
    assert _pieces_cut(cuts) == wanted, "other stacks are cut apart"


def _pieces_cut(cuts):
    # how many pieces of a row each cut is about: {(strip, setting, times): pieces}
    made = {}
    for cut in cuts:
        pieces = (cut["passes"] - 1) * cut["layers"] + cut["last_layers"]
        assert pieces % len(cut["rows"]) == 0, "cuts of part of a row"
        key = (cut["strip"], round(cut["setting"], 6), cut["times"])
        made[key] = made.get(key, 0) + pieces // len(cut["rows"])
    return made


def _check_trims(given, row, stacks, cuts, loss):
    # a strip alone to its height, one over wider strips to what it takes across
    wanted = {}
    for stack in stacks:
        reaches = [_reach(given["strips"][spot["strip"]], spot["turned"]) for spot in stack]
        side, whole = (1, row["height"]) if len(stack) == 1 else (0, reaches[0][0] + 2 * loss)
        for spot, reach in zip(stack, reaches, strict=True):
            setting = reach[side] + 2 * loss
            if setting < whole - SLACK:
                key = (spot["strip"], round(setting, 6), 1)
                wanted[key] = wanted.get(key, 0) + 1
    assert _pieces_cut(cuts) == wanted, "other strips are trimmed"


def _check_offcuts(given, cloth, laid, width, boxes):
    length = laid["usable_length"]
    if length is None:
        length = max(laid["used_length"], _washed(cloth, laid["length_to_buy"]))
    pieces = [
        (part["x"], part["y"], part["x"] + part["width"], part["y"] + part["length"])
        for part in laid["offcuts"]
    ]
    for left, near, right, far in pieces:
        assert left >= -SLACK and near >= -SLACK, "an offcut outside"
        assert right <= width + SLACK and far <= length + SLACK, "an offcut outside"
        assert any(
            across <= right - left + SLACK and along <= far - near + SLACK
            for strip in given["strips"]
            for across, along in (_reach(strip, False), _reach(strip, True))
        ), "an offcut too small to keep"
    _assert_apart(boxes + pieces)


# the whole plan


def _check_quantities(given, result, counts):
    missing = [0] * len(given["strips"])
    for row in result["unplaced"]:
        assert row["quantity"] > 0 and row["name"] == given["strips"][row["strip"]]["name"], (
            "unplaced nothing"
        )
        missing[row["strip"]] += row["quantity"]
    for strip, count, left in zip(given["strips"], counts, missing, strict=True):
        assert count + left == strip["quantity"], "not the quantity asked for"
        assert not left or not _fits_a_bolt(given, strip), "left out though a bolt could take it"


def _fits_a_bolt(given, strip):
    for cloth in given["cloths"]:
        allowed = strip.get("cloths")
        if cloth.get("length") is not None or not (allowed is None or cloth["name"] in allowed):
            continue
        loss = given.get("tear_loss", 5) if cloth.get("tear") else 0
        width = cloth["width"] * (1 - cloth.get("shrink_width", 0) / 100) - 2 * cloth.get("selvedge", 0)
        if any(_reach(strip, turned)[0] + 2 * loss <= width + SLACK for turned in _ways(strip, cloth)):
            return True
    return False


def _washed(cloth, bought):
    return bought * (1 - cloth.get("shrink_length", 0) / 100) - cloth.get("squaring", 0)


def _check_bought(cloths, result):
    bolts = [(cloth, laid) for cloth, laid in zip(cloths, result["cloths"], strict=True)
             if cloth.get("length") is None]  # fmt: skip
    cost, unrounded, priced = 0, 0.0, bool(bolts)
    for cloth, laid in bolts:
        needed, step = laid["length_needed"], cloth.get("shop_increment", 100)
        used = laid["used_length"]
        wanted = (used + cloth.get("squaring", 0)) / (1 - cloth.get("shrink_length", 0) / 100) if used else 0
        assert _close(needed, wanted), "needs another length"
        steps, least = laid["length_to_buy"] / step, cloth.get("minimum_cut", 0)
        whole = abs(steps - round(steps)) < 1e-6
        assert whole or laid["length_to_buy"] == least, "not what the shop cuts"
        most = max(needed + step, least) if used else step
        assert needed - 1e-6 <= laid["length_to_buy"] < most + 1e-6, "buys another length"
        assert not used or laid["length_to_buy"] >= least, "less than the shop cuts"
        if cloth.get("price") is None:
            priced = False
        else:
            each = cloth["price"] / cloth.get("price_length", 1000)
            cost += math.floor(laid["length_to_buy"] * each + 0.5 + 1e-9)
            unrounded += needed * each
    assert _close(result["bolt_length"], sum(laid["length_needed"] for _, laid in bolts)), "another sum"
    assert _close(result["length_to_buy"], sum(laid["length_to_buy"] for _, laid in bolts)), "another sum"
    assert result["cost"] == (cost if priced else None), "another cost"
    _check_claims(result, unrounded if priced else result["bolt_length"], priced)
    # of one bolt the fewest mm are the fewest steps; of several they need not cost least
    assert len(bolts) > 1 or not result["optimal"] or result["optimal_to_buy"], "optimal, but not to buy"


def _check_claims(result, found, priced):
    bound = result["cost_bound"] if priced else result["bound"]
    assert bound <= found * (1 + CLOSE) + SLACK, "a bound above what was found"
    gap = 100 * (found - bound) / found if found > SLACK else 0
    assert abs(result["gap"] - max(gap, 0)) <= 1e-6, "another gap"
    assert not result["optimal"] or result["gap"] <= 1e-6, "optimal, and yet a gap"
    assert result["optimal_to_buy"] == (result["gap_to_buy"] <= 1e-6), "optimal to buy, and yet a gap"


def _check_waste(cloths, result):
    whole = strips = 0.0
    for cloth, laid in zip(cloths, result["cloths"], strict=True):
        if not laid["rows"]:
            continue
        length = laid["used_length"]
        if cloth.get("length") is None:
            length = max(length, _washed(cloth, laid["length_to_buy"]))
        whole += laid["usable_width"] * length
        strips += sum(spot["length"] * spot["width"] for row in laid["rows"] for spot in row["strips"])
    assert abs(result["waste"] - (100 * (1 - strips / whole) if whole else 0)) <= 1e-6, "another waste"


def _close(one, other):
    return abs(one - other) <= CLOSE * max(1.0, abs(other)) + 1e-9
