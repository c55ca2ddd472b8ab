"""The app does what its OpenAPI document says, asked by schemathesis.

Left out of its checks: that whatever the schema allows is accepted. Some rules
hold between fields (a strip must fit its cloth), which a schema cannot say.
"""

import pytest
import schemathesis
from schemathesis.specs.openapi.checks import positive_data_acceptance

from backend.app import create_app

schema = schemathesis.openapi.from_wsgi("/api/v1/openapi.json", create_app())


@pytest.mark.full
@schema.parametrize()
def test_the_app_conforms_to_its_document(case):
    case.call_and_validate(excluded_checks=[positive_data_acceptance])
