"""The calculators over HTTP: one address each, from the catalogue."""

from flask.views import MethodView
from flask_smorest import Blueprint

from ..core.catalogue import answer, calculators
from ..core.wording import word
from .bodies import BodyParser
from .problems import documented
from .schemas import CalculatorSpec, Catalogue, answered, asked, example_of


class CalculatorBlueprint(Blueprint):
    """A blueprint whose bodies are read and checked by the core."""

    ARGUMENTS_PARSER = BodyParser()


def make_blueprint():
    """Make the blueprint with every calculator of the catalogue."""
    blueprint = CalculatorBlueprint("calculators", __name__, description="The calculations of the job")

    @blueprint.route("/calculators")
    @blueprint.doc(operationId="list-calculators")
    @blueprint.response(200, Catalogue)
    def list_calculators():
        """Describe every calculator: fields, units, limits, defaults, help"""
        return {"calculators": [calculator.describe() for calculator in calculators()]}

    for calculator in calculators():
        view = make_view(blueprint, calculator)
        blueprint.add_url_rule(f"/calculators/{calculator.name}", calculator.name, view)
    return blueprint


def make_view(blueprint, calculator):
    """Make the view of one calculator: what it is, and its answer."""

    class CalculatorView(MethodView):
        @blueprint.doc(summary=f"Describe {calculator.name}", operationId=f"describe-{calculator.name}")
        @blueprint.response(200, CalculatorSpec)
        def get(self):
            return calculator.describe()

        @blueprint.doc(summary=calculator.title, description=calculator.help,
                       operationId=f"ask-{calculator.name}")  # fmt: skip
        @documented(blueprint, 400, 413, 415, 422)
        @blueprint.arguments(asked(calculator), example=example_of(calculator.inputs))
        @blueprint.response(200, answered(calculator))
        def post(self, given):
            answered = answer(calculator.name, given)
            notes = [{**note, "message": word(note)} for note in answered["notes"]]
            return {"result": answered["result"], "notes": notes}

    return CalculatorView
