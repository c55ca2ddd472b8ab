"""What each use of facts looks at, of each kind: from what the kind says it does."""

from .kinds import LEFT_OUT, OF_GOODS, names_goods
from .looks import (
    AT,
    GOODS,
    KIND,
    NAMED_PRODUCT,
    QUANTITY,
    id_look,
    is_needed,
    look_at,
    name_look,
    pieces_look,
    rows_look,
)

# what facts are read for: the stock, the report of a market day, the takings; and to be shown as they are
STOCK, DAY, TAKINGS, SHOWN = "stock", "day", "takings", "shown"


def _for_stock(reader, readers):
    kind, fields = reader.kind, reader.fields
    voids = readers.get(fields[kind.voids].links) if kind.voids else None
    if kind.counts in OF_GOODS:
        # whatever it says; but the day is for people
        looked = [look_at(field, is_needed(field), True) for field in kind.fields if field.name != "day"]
        return tuple([AT, id_look(False)] + looked), names_goods(kind.fields)
    # what is held says of each fact that moves goods or cash whether it never happened
    if kind.name == LEFT_OUT or (voids and (voids.moves or voids.cash)):
        return (AT, id_look(False), look_at(fields[kind.voids], True)), None
    if not kind.moves:
        return None
    looks = [AT, id_look(_may_be_void(kind.name, readers))]
    for part in kind.moves:
        looks += [(name, "required") + name_look() for name in (part.out_of, part.into) if name]
        if part.only:
            looks.append(look_at(fields[part.only.name], is_needed(fields[part.only.name])))
        if part.goods:
            field = fields[part.goods]
            must = names_goods(field.fields)
            rows = rows_look((_goods_in(part, NAMED_PRODUCT if must is None else GOODS[0]), must))
            looks.append((field.name, "required" if is_needed(field) else None) + rows)
        else:
            looks += _goods_in(part, GOODS[0])
    return _each_once(looks), True if None in [part.goods for part in kind.moves] else None


def _goods_in(part, product):
    return (product, GOODS[1], pieces_look(part.pieces))


def _each_once(looks):
    # two movements may be from one place; in order, so that problems are told in the same everywhere
    names, once = [], []
    for look in looks:
        if look[0] not in names:
            names.append(look[0])
            once.append(look)
    return tuple(once)


def _may_be_void(name, readers):
    voids = [readers[other] for other in readers if readers[other].voids]
    return name in [one.fields[one.voids].links for one in voids]


def _for_day(reader, readers):
    kind, fields = reader.kind, reader.fields
    always = [id_look(True), AT]
    if kind.counts in OF_GOODS:
        return tuple(always + [look_at(fields[name], True) for name in ("day", "place")]), None
    voids = readers.get(fields[kind.voids].links) if kind.voids else None
    undoes = kind.name == LEFT_OUT or (voids and voids.looks_for(DAY))
    if not ("place" in fields or "box" in fields or undoes):
        return None
    worth = {part.goods: part.worth for part in kind.moves if part.goods}
    pieces = {part.goods: part.pieces for part in kind.moves if part.goods}
    for field in kind.fields:
        if field.name in worth:
            always.append(_moved_rows(field, (pieces[field.name], worth[field.name])))
        else:
            # where it was a market, what else it says of where is told as far as it is known
            needed = is_needed(field) and not (field.links and "booking" in fields)
            always.append(look_at(field, needed))
    return tuple(always), None


def _moved_rows(field, needed):
    rows = [look_at(one, one.name in needed) for one in field.fields]
    return (field.name, "required" if is_needed(field) else None) + rows_look((tuple(rows), None))


def _for_takings(reader, readers):
    kind, fields = reader.kind, reader.fields
    if not kind.takings:
        return None
    looked = [id_look(True)]
    looked += [look_at(fields[name], False) for name in ("day", "booking") if name in fields]
    looked += [look_at(fields[name], True) for name in ("amount", "payment")]
    for part in kind.moves:
        if part.goods is None:
            looked.append(QUANTITY)
        elif part.out_of:
            missing = "required" if is_needed(fields[part.goods]) else None
            looked.append((part.goods, missing) + rows_look(((QUANTITY,), None)))
    return tuple(looked), None


def _for_screens(reader, readers):
    # all that it says, and so whatever else a use looks at
    looked = [look_at(field, is_needed(field), True) for field in reader.kind.fields]
    return tuple([id_look(True), AT] + looked), names_goods(reader.kind.fields)


USES = {STOCK: _for_stock, DAY: _for_day, TAKINGS: _for_takings, SHOWN: _for_screens}
# what is asked even of a fact that says nothing to a use, and of one whose kind is none
PASSING = {
    STOCK: ((AT,), None), DAY: ((), None), TAKINGS: ((id_look(True),), None),
    SHOWN: ((id_look(True), AT), None),
}  # fmt: skip
NO_KIND = {use: ((KIND,) + PASSING[use][0], None) for use in PASSING}
