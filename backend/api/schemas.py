"""marshmallow schemas made from the core's declarations.

They write the OpenAPI document; the check itself stays the core's, so that
there is one source of each rule.
"""

import marshmallow as ma

from ..core.declaring.errors import Problems
from ..core.declaring.reading import read
from ..core.declaring.spec import NEEDED, WHOLE, WORDS
from ..core.numbers.rounding import ROUNDINGS
from ..core.numbers.units import BASE
from .problems import BadField, Described, worded

# as the core reads text: no NUL, and where it is needed something beside spaces
READABLE = r"^[^\u0000]*$"
NEEDED_TEXT = r"^[^\u0000]*[^\u0000 ][^\u0000]*$"


class BadFields(ma.ValidationError):
    """A ValidationError that keeps the core's problems as data."""

    def __init__(self, problems):
        super().__init__(worded(problems))
        self.problems = problems


class Asked(Described):
    """What a calculator takes: loading is the core's own check."""

    declared = ()

    class Meta:
        register = False

    def load(self, data, **options):
        """Check and fill in defaults. Raises: BadFields with every bad field."""
        try:
            return read(self.declared, data)
        except Problems as error:
            raise BadFields(error.problems) from error


class Told(Described):
    """What the core tells, which is in order already."""

    class Meta:
        register = False

    def dump(self, obj, **options):
        """Pass on what the core made."""
        return obj


class Note(BadField):
    """Something worth saying about a good answer."""

    message = ma.fields.String(required=True)


class WhenSpec(Told):
    """A choice on which it depends whether a field is asked for."""

    field = ma.fields.String(required=True)
    choices = ma.fields.List(ma.fields.String(), required=True)


class FieldSpec(Told):
    """One field of a calculator."""

    name = ma.fields.String(required=True)
    label = ma.fields.String(required=True)
    quantity = ma.fields.String(required=True, validate=ma.validate.OneOf(sorted(BASE)))
    base_unit = ma.fields.String(required=True, metadata={"description": "Unit of the API"})
    unit = ma.fields.String(required=True, metadata={"description": "Unit a screen offers first"})
    help = ma.fields.String(required=True)
    required = ma.fields.Boolean(required=True)
    default = ma.fields.Raw(required=True)
    lowest = ma.fields.Float(required=True, allow_none=True)
    highest = ma.fields.Float(required=True, allow_none=True)
    choices = ma.fields.List(ma.fields.Raw(), required=True, allow_none=True)
    choice_words = ma.fields.List(ma.fields.String(), required=True, allow_none=True)
    fewest = ma.fields.Integer(required=True, allow_none=True)
    most = ma.fields.Integer(required=True, allow_none=True)
    example = ma.fields.Raw(required=True)
    group = ma.fields.String(required=True, allow_none=True)
    formula = ma.fields.String(required=True, allow_none=True)
    keeps_number = ma.fields.Boolean(required=True)
    rounded = ma.fields.String(
        required=True,
        validate=ma.validate.OneOf(sorted(ROUNDINGS)),
        metadata={"description": "Which way the last digit of a length goes on a screen"},
    )
    shape = ma.fields.String(metadata={"description": "What a text must look like"})
    close = ma.fields.Boolean(metadata={"description": "Another machine may round its last digits otherwise"})
    when = ma.fields.Nested(WhenSpec, metadata={"description": "Asked for only where it is one of these"})
    fields = ma.fields.List(ma.fields.Nested(lambda: FieldSpec))
    instead = ma.fields.List(ma.fields.Nested(lambda: FieldSpec))
    item = ma.fields.Nested(lambda: FieldSpec)


class CalculatorSpec(Told):
    """One calculator: what it takes and gives."""

    name = ma.fields.String(required=True)
    title = ma.fields.String(required=True)
    help = ma.fields.String(required=True)
    inputs = ma.fields.List(ma.fields.Nested(FieldSpec), required=True)
    outputs = ma.fields.List(ma.fields.Nested(FieldSpec), required=True)
    main = ma.fields.List(ma.fields.String(), required=True)


class Catalogue(Told):
    """Every calculator."""

    calculators = ma.fields.List(ma.fields.Nested(CalculatorSpec), required=True)


def asked(calculator):
    """Make the schema of a calculator's input."""
    return asked_fields(_class_name(calculator.name), calculator.inputs)


def answered(calculator):
    """Make the schema of a calculator's reply."""
    name = _class_name(calculator.name)
    result = told_fields(name + "Result", calculator.outputs)
    return type(name + "Reply", (Told,), {
        "result": ma.fields.Nested(result, required=True),
        "notes": ma.fields.List(ma.fields.Nested(Note), required=True),
    })  # fmt: skip


def example_of(fields):
    """Make an example input from the fields' examples and defaults."""
    made = {}
    for field in fields:
        if field.item and field.default == NEEDED:
            made[field.name] = [field.item.example]
        elif field.quantity == "list" and field.default == NEEDED:
            made[field.name] = [example_of(field.fields) for _ in range(field.fewest or 1)]
        elif field.example is not None:
            made[field.name] = field.example
        elif field.default not in (NEEDED, None):
            made[field.name] = field.default
        elif field.choices and field.default == NEEDED:
            made[field.name] = field.choices[0]
    return made


def _class_name(name):
    return name.replace("-", " ").replace("_", " ").title().replace(" ", "")


def asked_fields(name, fields):
    """Make the schema of an object of declared fields, as it is sent."""
    made = {field.name: _asked_field(name, field) for field in fields}
    return type(name, (Asked,), made | {"declared": fields})


def told_fields(name, fields):
    """Make the schema of an object of declared fields, as it is told."""
    return type(name, (Told,), {field.name: _told_field(name, field) for field in fields})


def _asked_field(owner, field):
    options = {"metadata": _described(field), "validate": _limits(field)}
    if field.default == NEEDED:
        options["required"] = True
    else:
        options.update(load_default=field.default, allow_none=True)
    if field.item:
        return ma.fields.List(_asked_field(owner, field.item), **options)
    if field.quantity == "list":
        row = asked_fields(owner + _class_name(field.name), field.fields)
        return ma.fields.List(ma.fields.Nested(row), **options)
    if field.instead:
        options["metadata"] |= _number_or_object(field)
        return ma.fields.Raw(load_default=field.default, allow_none=True, metadata=options["metadata"])
    if field.fields:
        options["validate"] = []
        return ma.fields.Nested(asked_fields(owner + _class_name(field.name), field.fields), **options)
    return _plain_type(field)(**options)


def _told_field(owner, field):
    # an output that may be absent is there all the same, as null
    options = {"metadata": _described(field), "required": True, "allow_none": field.default != NEEDED}
    if field.choices:
        options["validate"] = [ma.validate.OneOf(field.choices)]
    if field.item:
        return ma.fields.List(_told_field(owner, field.item), **options)
    if field.fields:
        row = told_fields(owner + _class_name(field.name), field.fields)
        if field.quantity == "list":
            return ma.fields.List(ma.fields.Nested(row), **options)
        return ma.fields.Nested(row, **options)
    return _plain_type(field)(**options)


def _plain_type(field):
    if field.has_numbers:
        return ma.fields.Raw
    if field.quantity in WHOLE:
        return ma.fields.Integer
    if field.quantity == "flag":
        return ma.fields.Boolean
    if field.quantity == "object":
        return ma.fields.Dict
    return ma.fields.String if field.quantity in WORDS else ma.fields.Float


def _described(field):
    unit = BASE[field.quantity]
    told = {"description": f"{field.help} ({unit})" if unit else field.help, "x_quantity": field.quantity}
    if field.quantity == "text":
        told["pattern"] = NEEDED_TEXT if field.default == NEEDED else READABLE
    if field.example is not None:
        told["example"] = field.example
    return told


def _number_or_object(field):
    limits = {"minimum": field.lowest, "maximum": field.highest}
    parts = {
        part.name: {
            "type": "number",
            "minimum": part.lowest,
            "maximum": part.highest,
            "description": part.help,
        }
        for part in field.instead
    }
    return {"type": ["number", "object"], "properties": parts, "additionalProperties": False,
            "required": list(parts), **limits}  # fmt: skip


def _limits(field):
    if field.choices:
        numbers = [int(choice) for choice in field.choices if field.has_numbers and choice.isdigit()]
        return [ma.validate.OneOf([*field.choices, *numbers])]
    if field.quantity in WORDS or field.quantity == "list":
        return [ma.validate.Length(min=field.fewest, max=field.most)]
    return [ma.validate.Range(min=field.lowest, max=field.highest)]
