"""The least bolt length of two-stage layouts as a model for a general solver (HiGHS), from the definition.

A row is begun by its highest strip; a row of a cloth holds strips no higher than that, side by side in the
cloth's width (the levels of Lodi and Monaci, Integer linear programming models for 2-staged two-dimensional
knapsack problems, Mathematical Programming 94, 2003). Strips of one size are counted, not told apart.
"""

import highspy
import numpy as np


def least_bolt_length(plan, seconds=60, gap=0.0):
    """Solve a plan without washing, price, nap and tearing.

    Returns: {length, bound, seconds} in mm of rows on bolts; length is None where none was found.
    """
    return _solved(_model(plan), seconds, gap)


def least_with_squaring(plan, seconds=60):
    """Solve a plan without price, nap, print and tearing for what it needs of bolts before the wash.

    Each bolt that is used is squared once. Returns: as `least_bolt_length`.
    """
    return _solved(_model(plan, squared=True), seconds, 0.0)


def least_paid(plan, seconds=60):
    """Solve a plan for what is paid for its bolts, in the steps of the shop, squaring each that is used once.

    Every step and the least cut of every bolt are whole mm and cost whole minor units.
    Returns: as `least_bolt_length`, in minor units.
    """
    return _solved(_model(plan, paid=True), seconds, 0.0)


def least_left_out(plan, seconds=60):
    """Solve a plan of remnants alone for the least area that is left out; as `least_bolt_length`."""
    return _solved(_model(plan, leaving=True), seconds, 0.0)


def _solved(model, seconds, gap):
    solver = highspy.Highs()
    for name, value in (("output_flag", False), ("threads", 1), ("time_limit", float(seconds)),
                        ("mip_rel_gap", float(gap)), ("mip_abs_gap", 1e-6)):  # fmt: skip
        solver.setOptionValue(name, value)
    solver.passModel(model)
    solver.run()
    info = solver.getInfo()
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    length = info.objective_function_value if found else None
    return {"length": length, "bound": info.mip_dual_bound, "seconds": solver.getRunTime()}


def _lying(strip):
    # (across, along) of each way it may lie
    ways = {
        "across": [(strip["length"], strip["width"])], "along": [(strip["width"], strip["length"])],
    }  # fmt: skip
    return ways.get(strip.get("direction", "best")) or sorted({*ways["across"], *ways["along"]})


def _model(plan, paid=False, leaving=False, squared=False):
    columns = _Columns()
    placed = [[] for _ in plan["strips"]]
    for cloth in plan["cloths"]:
        width = cloth["width"] * (1 - cloth.get("shrink_width", 0) / 100) - 2 * cloth.get("selvedge", 0)
        lying = [
            (number, across, along)
            for number, strip in enumerate(plan["strips"])
            if strip.get("cloths") is None or cloth["name"] in strip["cloths"]
            for across, along in _lying(strip)
            if across <= width and (cloth.get("length") is None or along <= cloth["length"])
        ]
        heights, ended, repeat = [], [], cloth.get("repeat") or 0
        for number, across, along in lying:
            # a row starts on the print's repeat; only the last ends where its strips do
            more = -along % repeat if repeat else 0
            before = None
            for _ in range(plan["strips"][number]["quantity"]):
                counted = cloth.get("length") is None and not paid and not squared
                begun = columns.add(1, along + more if counted else 0)
                placed[number].append(begun)
                heights.append((begun, along + more))
                if more:
                    last = columns.add(1, -more if counted else 0)
                    heights.append((last, -more))
                    ended.append((last, 1))
                    columns.constrain([(begun, 1), (last, -1)], 0, np.inf)
                room = [(begun, across - width)]
                for other, wide, high in lying:
                    if high <= along:
                        most = min(plan["strips"][other]["quantity"], int(width // wide))
                        beside = columns.add(most, 0)
                        placed[other].append(beside)
                        room.append((beside, wide))
                        # nothing lies in a row that is not begun
                        columns.constrain([(beside, 1), (begun, -most)], -np.inf, 0)
                columns.constrain(room, -np.inf, 0)
                if before is not None:
                    columns.constrain([(before, 1), (begun, -1)], 0, np.inf)
                before = begun
        if ended:
            columns.constrain(ended, -np.inf, 1)
        if cloth.get("length") is not None:
            columns.constrain(heights, -np.inf, cloth["length"])
        elif paid and heights:
            _pay(columns, cloth, heights)
        elif squared and heights:
            _square(columns, cloth, heights)
    for strip, own in zip(plan["strips"], placed, strict=True):
        if leaving:
            own.append(columns.add(strip["quantity"], strip["length"] * strip["width"]))
        columns.constrain([(column, 1) for column in own], strip["quantity"], strip["quantity"])
    return columns.model()


def _square(columns, cloth, heights):
    most = sum(height for _, height in heights)
    used = columns.add(1, cloth["squaring"] / _kept(cloth))
    # sizes are whole mm, so their rows are
    rows = columns.add(most, 1 / _kept(cloth))
    columns.constrain([*heights, (rows, -1)], 0, 0)
    columns.constrain([(rows, 1), (used, -most)], -np.inf, 0)


def _kept(cloth):
    return 1 - cloth.get("shrink_length", 0) / 100


def _pay(columns, cloth, heights):
    step, least = cloth["shop_increment"], cloth.get("minimum_cut", 0)
    used, steps = columns.add(1, 0), columns.add(10000, 0)
    bought = columns.add(10000 * step, cloth["price"] / 1000)
    columns.constrain([*heights, (used, cloth.get("squaring", 0)), (steps, -step * _kept(cloth))], -np.inf, 0)
    columns.constrain([(steps, 1), (used, -10000)], -np.inf, 0)
    columns.constrain([(bought, 1), (steps, -step)], 0, np.inf)
    columns.constrain([(bought, 1), (used, -least)], 0, np.inf)


class _Columns:
    def __init__(self):
        self.most, self.costs, self.rows = [], [], []

    def add(self, most, cost):
        self.most.append(most)
        self.costs.append(cost)
        return len(self.most) - 1

    def constrain(self, terms, low, high):
        self.rows.append((terms, low, high))

    def model(self):
        model = highspy.HighsLp()
        model.num_col_, model.num_row_ = len(self.most), len(self.rows)
        model.col_cost_ = np.array(self.costs, dtype=float)
        model.col_lower_ = np.zeros(len(self.most))
        model.col_upper_ = np.array(self.most, dtype=float)
        model.row_lower_ = np.array([row[1] for row in self.rows], dtype=float)
        model.row_upper_ = np.array([row[2] for row in self.rows], dtype=float)
        model.integrality_ = [highspy.HighsVarType.kInteger] * len(self.most)
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        starts = np.cumsum([0] + [len(row[0]) for row in self.rows])
        model.a_matrix_.start_ = starts
        model.a_matrix_.index_ = np.array([column for row in self.rows for column, _ in row[0]])
        model.a_matrix_.value_ = np.array([value for row in self.rows for _, value in row[0]], dtype=float)
        return model
