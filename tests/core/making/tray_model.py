"""The soonest that a few trays can be done: an integer programme that HiGHS solves, and a check of any plan.

A step that is no piece step comes once: before the next piece step begins, after those right before it;
behind the last piece step when all trays are done.
"""

from itertools import combinations

import highspy

HAIR = 1e-6


class Job:
    """One tray at one step, or a step that comes once."""

    def __init__(self, step, tray, minutes, people, machine):
        self.step = step
        self.tray = tray
        self.minutes = minutes
        self.people = people
        self.machine = machine


def jobs_of(asked):
    """List the jobs of a question to batch-time: no laps, no allowance, all ratings 100."""
    sizes = [
        min(asked["tray"], asked["quantity"] - begun) for begun in range(0, asked["quantity"], asked["tray"])
    ]
    made = []
    for number, step in enumerate(asked["steps"]):
        people = [step["who"] - 1] if step["who"] else list(range(asked["people"]))
        machine = step["machine"] or None
        if step["per"] == "piece":
            made += [
                Job(number, tray, step["minutes"] * size, people, machine) for tray, size in enumerate(sizes)
            ]
        else:
            made.append(Job(number, None, step["minutes"], people, machine))
    return made


def pairs_in_turn(asked, jobs):
    """List what comes after what: (first, second, whether it is one tray that may change hands)."""
    by_tray = [number for number, step in enumerate(asked["steps"]) if step["per"] == "piece"]
    pairs = []
    for first in jobs:
        for second in jobs:
            if first.tray is not None and second.tray is not None:
                following = [number for number in by_tray if number > first.step][:1]
                if first.tray == second.tray and [second.step] == following:
                    pairs.append((first, second, True))
            elif second.step == first.step + 1 and (first.tray is None or first.step == by_tray[-1]):
                pairs.append((first, second, False))
    return pairs


def soonest(asked, at_most):
    """Find the soonest end of all jobs; at_most, an end that is known to be possible."""
    jobs = jobs_of(asked)
    model = highspy.Highs()
    model.silent()
    far = at_most + asked["handover"] + 1
    end = model.addVariable(lb=0, ub=at_most + HAIR, obj=1)
    begins = {job: model.addVariable(lb=0, ub=far) for job in jobs}
    does = {(job, person): model.addBinary() for job in jobs for person in job.people}
    for job in jobs:
        model.addConstr(sum(does[job, person] for person in job.people) == 1)
        model.addConstr(begins[job] + job.minutes <= end)
    for first, second, is_tray in pairs_in_turn(asked, jobs):
        wait = 0
        if is_tray and asked["handover"]:
            changes = model.addBinary()
            wait = asked["handover"] * changes
            for person in first.people:
                same = does[second, person] if person in second.people else 0
                model.addConstr(changes >= does[first, person] - same)
        model.addConstr(begins[second] >= begins[first] + first.minutes + wait)
    for one, other in combinations(jobs, 2):
        shared = [person for person in one.people if person in other.people]
        if not shared and (one.machine is None or one.machine != other.machine):
            continue
        before = model.addBinary()
        if one.machine is not None and one.machine == other.machine:
            # one machine of each name
            model.addConstr(begins[other] >= begins[one] + one.minutes - far * (1 - before))
            model.addConstr(begins[one] >= begins[other] + other.minutes - far * before)
        for person in shared:
            apart = far * (2 - does[one, person] - does[other, person])
            model.addConstr(begins[other] >= begins[one] + one.minutes - far * (1 - before) - apart)
            model.addConstr(begins[one] >= begins[other] + other.minutes - far * before - apart)
    model.run()
    assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return model.getObjectiveValue()


def check_plan(asked, result):
    """Assert that the turns told are a plan: all jobs, nobody and no machine twice at once, all in turn."""
    jobs = {(job.step, job.tray): job for job in jobs_of(asked)}
    turns = {(turn["step"], turn["tray"]): turn for turn in result["order"]}
    assert sorted(turns, key=str) == sorted(jobs, key=str) and len(turns) == len(result["order"])
    for key, job in jobs.items():
        assert turns[key]["person"] - 1 in job.people
        assert abs(turns[key]["end"] - turns[key]["begin"] - job.minutes) < HAIR
    for first, second, is_tray in pairs_in_turn(asked, list(jobs.values())):
        one, other = turns[first.step, first.tray], turns[second.step, second.tray]
        wait = asked["handover"] if is_tray and one["person"] != other["person"] else 0
        assert other["begin"] > one["end"] + wait - HAIR
    for one, other in combinations(jobs, 2):
        first, second = turns[one], turns[other]
        apart = first["end"] < second["begin"] + HAIR or second["end"] < first["begin"] + HAIR
        alike = jobs[one].machine is not None and jobs[one].machine == jobs[other].machine
        assert apart or (first["person"] != second["person"] and not alike), (first, second)
    assert max(turn["end"] for turn in turns.values()) == result["makespan"]
