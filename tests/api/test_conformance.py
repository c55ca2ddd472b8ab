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
# a list that is too long can make a body that is too long: refused as such, before it is read
REFUSED = ["400", "401", "403", "404", "405", "406", "409", "413", "415", "422", "428", "429", "5xx"]
config = schemathesis.Config.from_dict(
    {"checks": {"negative_data_rejection": {"expected-statuses": REFUSED}}}
)
schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", app, config=config)


@pytest.mark.full
@schema.parametrize()
@settings(max_examples=min(MOST_EXAMPLES, settings.default.max_examples))
def test_the_app_conforms_to_its_document(case):
    case.call_and_validate(excluded_checks=[positive_data_acceptance])
