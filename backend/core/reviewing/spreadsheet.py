"""CSV that a spreadsheet shows as it is, and runs nothing of.

Source: RFC 4180 (lines end with CRLF, quotes inside quoted fields are doubled).
"""

# a spreadsheet would take text that begins so for a formula; the last four are wide = + - @
FORMULAS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
QUOTED = (",", '"', "\r", "\n")


def guarded(text):
    """Write text so that a spreadsheet takes it for text. Example: guarded("=1") == "'=1" """
    return "'" + text if text[:1] in FORMULAS else text


def csv_line(cells):
    """Write one line of texts, its end with it.

    Example: csv_line(["a", "b, c"]) == 'a,"b, c"' + chr(13) + chr(10)
    """
    return ",".join([_quoted(cell) for cell in cells]) + "\r\n"


def _quoted(cell):
    if [mark for mark in QUOTED if mark in cell]:
        return '"' + cell.replace('"', '""') + '"'
    return cell
