"""Our own scripts and styles as a phone gets them: prose and margins left out, every line where it is."""


def bare(text):
    """Blank out comments that begin a line, and the margins; lines keep their numbers, so that an error
    names the right one.

    What only looks like a comment begins no line of ours: a text or a template with `//` or `/*` at the
    start of a line is not written here, nor is one whose margins are seen.
    """
    kept, inside = [], False
    for line in text.split("\n"):
        begins = line.lstrip()
        inside = inside or begins.startswith("/*")
        prose = inside or begins.startswith("//")
        inside = inside and "*/" not in line
        kept.append("" if prose else begins)
    return "\n".join(kept)
