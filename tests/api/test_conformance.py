"""The app does what its OpenAPI document says, asked by schemathesis.

Left out of its checks: that whatever the schema allows is accepted. Some rules
hold between fields (a strip must fit its cloth), which a schema cannot say.
"""

import tempfile

import pytest
import schemathesis
from hypothesis import settings
from schemathesis.specs.openapi.checks import positive_data_acceptance

from backend import store
from backend.app import create_app
from backend.settings import Settings

# many operations, each asked with good and bad input: a bound on all of them together
MOST_EXAMPLES = 150
KEPT = tempfile.TemporaryDirectory(prefix="boltfair-")
app = create_app(told=Settings(KEPT.name))
with app.app_context():
    store.prepare(app.config["BOLTFAIR"])
schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app)


@pytest.mark.full
@schema.parametrize()
@settings(max_examples=min(MOST_EXAMPLES, settings.default.max_examples))
def test_the_app_conforms_to_its_document(case):
    case.call_and_validate(excluded_checks=[positive_data_acceptance])
