"""What measuring.js noted in a page, read: when things were there, and what held them up."""

import statistics

from tests.benchmarks.phone_at_work import THROTTLE


def waited(noted, until, service_worker=True):
    """Add up the ms before `until` in which the page waited for the core or the service worker.

    What the core had not answered by then was not waited for.
    """
    spans = [(call["sent"], call["got"]) for call in answered(noted, until)]
    if service_worker:
        spans += [(reply["from"], reply["to"]) for reply in noted["fromServiceWorker"]]
    total, reached = 0, 0
    for start, end in sorted(spans):
        start, end = max(start, reached), min(end, until)
        total += max(0, end - start)
        reached = max(reached, end)
    return total


def answered(noted, until):
    """List the calls of the core that were answered before `until`."""
    return [call for call in noted["calls"] if call["got"] and call["got"] <= until]


def core_up(noted):
    """Work out when the core would be up with its worker at a quarter of its speed."""
    return noted["workerMade"] + THROTTLE * (noted["coreUp"] - noted["workerMade"])


def at_four_times(noted, until):
    """Work out when `until` would be with the workers, too, at a quarter of their speed.

    A core that is up before the page asks is not waited for; at a quarter of its
    speed it may be, which then counts as well.
    """
    late = until + (THROTTLE - 1) * waited(noted, until)
    asked = [call["sent"] for call in answered(noted, until)]
    if not asked or noted["coreUp"] is None:
        return late
    return max(late, core_up(noted) + until - max(min(asked), noted["coreUp"]))


def first_paints(starts):
    """List the ms to the first paints of cold starts."""
    return [at_four_times(start, start["paint"][0]) for start in starts]


def at_four(answers):
    """Work out the ms to answers with the core's worker at a quarter of its speed.

    Takes: answers, (ms to the paint, ms of it the core's) each, as measured.
    """
    return [painted + (THROTTLE - 1) * own for painted, own in answers]


def parts(answers):
    """Say what an answer consists of, in medians."""
    page = statistics.median(painted - own for painted, own in answers)
    own = statistics.median(own for _, own in answers)
    return f"page {page:.0f}, core {own:.1f} × {THROTTLE}"


def shift(noted, after_input=True):
    """Add up the layout shifts, those soon after an input included or not."""
    return sum(part["value"] for part in noted["shifts"] if after_input or not part["afterInput"])


def movers(noted):
    """Name what moved."""
    moved = {what for part in noted["shifts"] for what in part["moved"]}
    return ", ".join(sorted(moved)[:3])


def longest_task(noted):
    """Return the ms of the longest task; 0 where none was over 50."""
    return max((task["ms"] for task in noted["tasks"]), default=0)


def longest_frame(*notes):
    """Say what the longest frame was spent on."""
    frames = [frame for noted in notes for frame in noted["frames"]]
    if not frames:
        return ""
    frame = max(frames, key=lambda frame: frame["ms"])
    scripts = ", ".join(f"{script['what']} {script['ms']:.0f}" for script in frame["scripts"])
    return (
        f"frame of {frame['ms']:.0f}, {frame['render']:.0f} of it layout and paint; {scripts or 'no script'}"
    )
