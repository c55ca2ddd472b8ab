"""batch-time: how long a batch takes, by laps, practice and the hands there are, and when it is done."""

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up
from ..numbers.rounding import at_most
from ..records.kinds import STEPS_PER
from .laps import judged_laps, timed
from .learning import NONE, rate_of, units_worth
from .trays import Flow, Stop, least_time, time_alone, trays_of, waiting_of
from .windows import badly_ordered, laid_into

MOST_TURNS = 4000  # of trays at piece steps: so many are worked out while somebody waits
LEAST_WORK = 1  # minute between two breaks
MOST_LAPS = 200  # of a step
TRAY = 12  # pieces, where nobody says

LAP = [
    Field("minutes", "minutes", "From one tap to the next, pauses left out"),
    Field("pieces", "count", "Pieces done in it, or times of a step that comes once", lowest=1),
    Field("keep", "flag", "Yes to count this lap whatever it took, no to leave it out", None),
]
STEP = [
    Field("name", "text", "The step", example="Sew the tube"),
    Field("per", "choice", "What it is done once for", choices=STEPS_PER),
    Field("minutes", "minutes", "Minutes it takes, where it was not timed", None, example=1.5),
    Field("observed", "list", "Laps it was timed by", None, fields=LAP, most=MOST_LAPS),
    Field("rating", "percent", "How quick the work was: 100 is the usual pace", 100, lowest=50, highest=150),
    Field("allowance", "percent", "Added for rest and what comes between", 15),
    Field("who", "count", "Which person does it; 0 for anybody", 0, highest=3),
    Field("machine", "text", "The machine it needs", ""),
]
BATCH = [
    Field("pieces", "count", "Pieces made", lowest=1),
    Field("minutes", "minutes", "Minutes it took", lowest=0.001),
]
MACHINE = [
    Field("name", "text", "The machine, as the steps call it"),
    Field("count", "count", "How many there are", lowest=1, highest=20),
]
WINDOW = [Field("from", "instant", "When work can begin"), Field("to", "instant", "When it has to end")]

INPUTS = [
    Field("quantity", "count", "Pieces in the batch", 48, lowest=1, highest=2000, group="The batch"),
    Field("steps", "list", "What is done, in working order", fields=STEP, fewest=1, most=20,
          group="The batch"),
    Field("colours", "count", "Colours in it", 1, group="The batch"),
    Field("threads", "count", "Times a thread or bobbin is put in anew", 0, group="The batch"),
    Field("accuracy", "percent", "By how much a timed step may be off", 5, lowest=1, highest=20,
          group="Timing"),
    Field("made_before", "count", "Pieces made before, up to when it was timed; those of the earlier batches "
          "if left out", None, group="Practice"),
    Field("learning", "percent", "What a piece takes after twice as many; 100 for no change", None, lowest=70,
          group="Practice"),
    Field("history", "list", "Earlier batches, the first ever made first", None, fields=BATCH,
          group="Practice"),
    Field("people", "count", "People at work", 1, lowest=1, highest=3, group="Hands"),
    Field("tray", "count", "Pieces that pass on together", TRAY, lowest=1, highest=2000, group="Hands"),
    Field("handover", "minutes", "What it takes to pass a tray on", 0.5, group="Hands"),
    Field("machines", "list", "Machines there is more than one of", [], fields=MACHINE, most=20,
          group="Hands"),
    Field("start", "instant", "When work begins", None, group="When"),
    Field("windows", "list", "Hours there are for it, in order", None, fields=WINDOW, most=60, group="When"),
    Field("break_every", "minutes", "Minutes of work between two breaks; 0 for none", 55, group="When"),
]  # fmt: skip

TOLD_STEP = [
    Field("name", "text", "The step"),
    Field("observed", "minutes", "What it took"),
    Field("needed", "count", "Laps it takes for the wanted accuracy", None),
    Field("precision", "percent", "By how much its time may be off, with 95 % confidence", None, close=True),
    Field("left_out", "list", "Laps left out, from 0", item=Field("lap", "count", "Lap"), most=MOST_LAPS),
    Field("basic", "minutes", "At the usual pace"),
    Field("standard", "minutes", "With what is added for rest"),
]
TURN = [
    Field("person", "count", "Who, from 1"),
    Field("step", "count", "Which step, from 0"),
    Field("tray", "count", "Which tray, from 0; none of a step that comes once", None),
    Field("begin", "minutes", "From when on, from the start of the batch"),
    Field("end", "minutes", "Until when"),
]
OUTPUTS = [
    Field("steps", "list", "What each step takes", fields=TOLD_STEP, most=20),
    Field("batch_minutes", "minutes", "The whole batch at the standard",
          formula="steps of a piece × {quantity} + steps of a colour × {colours} + of a thread × {threads} "
                  "+ of the batch"),
    Field("piece_minutes", "minutes", "A piece of it", formula="{batch_minutes} ÷ {quantity}"),
    Field("learning", "percent", "What a piece takes after twice as many", close=True),
    Field("predicted", "minutes", "The batch with practice", close=True,
          formula="steps of a piece as the {quantity} pieces after those made before, {made_before}, take "
                  "them, at {learning} for twice as many + the other steps"),
    Field("makespan", "minutes", "From start to end, with all who are at work",
          formula="whatever can begin earliest begins, {people} at work, {tray} pieces to a tray, {handover} "
                  "for each change of hands"),
    Field("rule", "choice", "Whether trays are finished first, or steps", choices=("flow", "batch")),
    Field("waiting", "list", "How long each waits", item=Field("minutes", "minutes", "Waiting"), most=3),
    Field("alone", "minutes", "One person alone"),
    Field("bound", "minutes", "No way of sharing the work is done sooner"),
    Field("finish", "instant", "When it is done", None, close=True),
    Field("short", "minutes", "Minutes there is no time for", None, close=True),
    Field("order", "list", "Who does what when", fields=TURN, most=MOST_TURNS + 20, drawn=True),
]  # fmt: skip


def work(given):
    """Work out what a batch takes at the standard, with practice and shared, and when it is done.

    `finish` is laid out with the predicted minutes of one person, or the makespan of several; windows before
    `start` are cut off; without either there is none, and `short` is 0 where all fits.
    Raises: Problems on a step with minutes and laps or neither, no lap left to count, learning beside
    history, a person who is not there, windows out of order, more turns than can be worked out.
    Source: ILO, Introduction to Work Study (rating, allowance, laps); Graham, SIAM Journal on Applied
    Mathematics 17 (1969): where nothing is tied and no handover counts, the makespan is within
    2 − 1/people of the best.
    """
    problems, judged = _problems(given), [_judged(step) for step in given["steps"]]
    problems += _no_laps(given["steps"], judged)
    if problems:
        raise Problems(problems)
    told = [_told(step, laps, given["accuracy"]) for step, laps in zip(given["steps"], judged)]
    result = {"steps": told}
    result.update(_standard(given, told))
    result.update(_predicted(given, told))
    result.update(_shared(given, told))
    minutes = result["predicted"] if given["people"] == 1 else result["makespan"]
    result["finish"], result["short"] = None, None
    if given["start"] is not None or given["windows"]:
        result["finish"], result["short"] = laid_into(
            minutes, given["start"], given["windows"], given["break_every"]
        )
    return result, _notes(judged)


def _problems(given):
    problems = badly_ordered(given["windows"] or [])
    for index, step in enumerate(given["steps"]):
        field = "steps." + str(index)
        if (step["minutes"] is None) == (not step["observed"]):
            problems.append(problem(field + ".minutes", "minutes_or_observed"))
        if step["who"] > given["people"]:
            problems.append(problem(field + ".who", "highest", step["who"], given["people"], "count"))
    if 0 < given["break_every"] < LEAST_WORK:
        problems.append(problem("break_every", "lowest", given["break_every"], LEAST_WORK, "minutes"))
    if given["learning"] is not None and given["history"]:
        problems.append(problem("learning", "learning_or_history"))
    trays = -(-given["quantity"] // given["tray"])
    turns = trays * len([step for step in given["steps"] if step["per"] == "piece"])
    if turns > MOST_TURNS:
        problems.append(problem("tray", "too_many_turns", turns, MOST_TURNS, "count"))
    return problems


def _judged(step):
    return judged_laps(step["observed"] or [])


def _no_laps(steps, judged):
    return [
        problem("steps." + str(index) + ".observed", "no_laps")
        for index, step in enumerate(steps)
        if step["observed"] and not judged[index][0]
    ]


def _told(step, judged, accuracy):
    laps, left_out, _ = judged
    measured = {"observed": step["minutes"], "needed": None, "precision": None}
    if laps:
        measured = timed(laps, accuracy)
    basic = measured["observed"] * step["rating"] / 100
    return {
        "name": step["name"],
        "observed": measured["observed"],
        "needed": measured["needed"],
        "precision": measured["precision"],
        "left_out": left_out,
        "basic": basic,
        "standard": basic * (1 + step["allowance"] / 100),
    }


def _times(given, step):
    # how often a step is done for the whole batch
    return {"piece": given["quantity"], "batch": 1, "colour": given["colours"], "thread": given["threads"]}[
        step["per"]
    ]


def _standard(given, told):
    total = 0.0
    for step, row in zip(given["steps"], told):
        total += row["standard"] * _times(given, step)
    return {"batch_minutes": total, "piece_minutes": total / given["quantity"]}


def _predicted(given, told):
    rate = given["learning"]
    if rate is None:
        rate = rate_of(given["history"]) if given["history"] else NONE
    made_before = given["made_before"]
    if made_before is None:
        made_before = add_up([batch["pieces"] for batch in given["history"] or []])
    worth = units_worth(rate, made_before, given["quantity"])
    total = 0.0
    for step, row in zip(given["steps"], told):
        total += row["standard"] * (worth if step["per"] == "piece" else _times(given, step))
    return {"learning": rate, "predicted": total}


def _shared(given, told):
    people, trays = given["people"], trays_of(given["quantity"], given["tray"])
    best = None
    for rule in ("flow", "batch"):
        stops, machines = _stops(given, told)
        flow = Flow(stops, trays, people, machines, given["handover"], rule == "flow")
        makespan = flow.run()
        if best is None or not at_most(best[1], makespan):
            best = (rule, makespan, flow.turns, stops)
    rule, makespan, turns, stops = best
    bound = least_time(stops, trays, people)
    return {
        "makespan": makespan,
        "rule": rule,
        "order": [_told_turn(turn) for turn in turns],
        "waiting": waiting_of(turns, people, makespan),
        "alone": time_alone(stops, trays),
        # what is proven is so to a float's last bits
        "bound": makespan if at_most(makespan, bound) else bound,
    }


def _stops(given, told):
    counts, kinds, machines = {}, {}, 0
    for machine in given["machines"]:
        counts[machine["name"]] = counts.get(machine["name"], 0) + machine["count"]
    stops = []
    for place, (step, row) in enumerate(zip(given["steps"], told)):
        name, times = step["machine"], _times(given, step)
        if name and name not in kinds:
            kinds[name] = list(range(machines, machines + counts.get(name, 1)))
            machines += counts.get(name, 1)
        by_tray = step["per"] == "piece"
        people = [step["who"] - 1] if step["who"] else list(range(given["people"]))
        if times:
            minutes = row["standard"] * (1 if by_tray else times)
            stops.append(Stop(place, by_tray, minutes, people, kinds.get(name, [])))
    return stops, machines


def _told_turn(turn):
    return {
        "person": turn.person + 1,
        "step": turn.stop.step,
        "tray": turn.tray,
        "begin": turn.begin,
        "end": turn.end,
    }


def _notes(judged):
    return [
        note("steps." + str(index) + ".observed", "too_many_left_out")
        for index, (_, _, too_many) in enumerate(judged)
        if too_many
    ]


CALCULATOR = Calculator(
    "batch-time",
    "Batch time",
    "How long a batch takes: by laps you timed, with practice, shared out, and when it is done.",
    INPUTS,
    OUTPUTS,
    work,
    main=("batch_minutes", "predicted", "makespan", "finish"),
)
