"""The calculators over HTTP: one address each, from the catalogue."""

from flask import current_app, request
from flask.views import MethodView
from flask_smorest import Blueprint
from werkzeug.exceptions import ServiceUnavailable

from .. import calculating
from ..core.catalogue import answer, calculators
from ..core.presenting.wording import word
from ..gateway import GONE
from . import guard
from .bodies import BodyParser
from .problems import documented
from .schemas import CalculatorSpec, Catalogue, answered, asked, example_of

# a long calculation's seconds: for whoever asks, and for a phone of a business here
SECONDS, SECONDS_OF_A_PHONE = 2, 10
BUSY = "as many long calculations as this server takes on at once are at work: ask again"
TOO_LONG = "this could not be begun in the time that there is: ask for less"


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
        @documented(blueprint, 400, 413, 415, 422, *([503] if calculator.by_steps else []))
        @blueprint.arguments(asked(calculator), example=example_of(calculator.inputs))
        @blueprint.response(200, answered(calculator))
        def post(self, given):
            ask = ask_long if calculator.by_steps else answer
            answered = ask(calculator.name, given)
            notes = [{**note, "message": word(note)} for note in answered["notes"]]
            return {"result": answered["result"], "notes": notes}

    return CalculatorView


def ask_long(name, given):
    """Ask a calculator that may take long: against a clock, the best so far when that is up.

    Raises: Problems; ServiceUnavailable where others are at work.
    """
    usual, of_a_phone = current_app.config["SECONDS_OF_CALCULATIONS"]
    seconds = of_a_phone if guard.is_phone() else usual
    try:
        return calculating.answer(name, given, seconds, request.environ.get(GONE))
    except calculating.Busy:
        raise ServiceUnavailable(BUSY, retry_after=usual) from None
    except calculating.TookTooLong:
        raise ServiceUnavailable(TOO_LONG, retry_after=usual) from None
    except calculating.Gone:
        raise ServiceUnavailable(retry_after=usual) from None
