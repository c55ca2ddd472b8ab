"""The core's Python files as a phone gets them: each statement on its own line, no prose, narrow margins."""

import io
import tokenize

INDENT = 4
# a docstring is a statement by itself; a text within brackets is data, and no NEWLINE follows there
BEFORE = {
    tokenize.ENCODING, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT, tokenize.NL, tokenize.COMMENT,
}  # fmt: skip


def read_core(core):
    """Read the core's Python files, as {path from its parent folder: text}."""
    return {
        f"{core.name}/{file.relative_to(core).as_posix()}": without_prose(file.read_text(encoding="utf-8"))
        for file in sorted(core.rglob("*.py"))
    }


def without_prose(text):
    """Blank out comments and docstrings; lines keep their numbers, so that an error names the right one.

    Returns: text, each level of it set in by one space; a docstring becomes an
    empty one, as a body may hold nothing else.
    """
    lines = text.splitlines()
    # from the end on, so that what is still to be cut keeps its place
    for (row, start), (last, end), instead in reversed(list(_prose(text))):
        tail = lines[last - 1][end:]
        lines[row - 1] = (lines[row - 1][:start] + instead).rstrip() + tail
        lines[row:last] = [""] * (last - row)
    return "".join(_set_in(line) + "\n" for line in lines)


def _set_in(line):
    # no text of the core's is longer than a line, so that what begins one is no part of it
    statement = line.lstrip(" ")
    return " " * ((len(line) - len(statement)) // INDENT) + statement


def _prose(text):
    """Find comments and docstrings: (start, end, what stands there instead)."""
    tokens = list(tokenize.tokenize(io.BytesIO(text.encode()).readline))
    for before, token, after in zip(tokens, tokens[1:], tokens[2:], strict=False):
        if token.type == tokenize.COMMENT:
            yield token.start, token.end, ""
        elif token.type == tokenize.STRING and before.type in BEFORE and after.type == tokenize.NEWLINE:
            yield token.start, token.end, '""'
