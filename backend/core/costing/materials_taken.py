"""What all that was made took of each material, for whoever asks what some of it cost."""

from .cloth_used import cloth_used
from .material_used import elastic_used, supplies_used, thread_used
from .pieces_made import lines_made

# each kind of material, what is used of it, and what is noted where pieces are made of what nobody said
MATERIALS = (
    ("cloth", cloth_used, "made_without_cut"),
    ("elastic", elastic_used, "elastic_not_named"),
    ("thread", thread_used, "thread_not_named"),
    ("supply", supplies_used, None),
)


def materials_taken(recorded):
    """List the kinds of material with what was taken of each, made when first asked.

    Returns: [(kind, {record: [use]}, {number of a line: pieces made of what nobody said}, the rule of the
    note of these)].
    """
    return recorded.once("materials taken", lambda: _taken(recorded))


def _taken(recorded):
    lines, taken = lines_made(recorded), []
    for kind, used, rule in MATERIALS:
        uses, unknown = used(recorded, lines)
        taken.append((kind, uses, unknown, rule))
    return taken
