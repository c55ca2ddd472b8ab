"""The OpenAPI document says what the core's declarations say."""

import pytest

from backend.api.schemas import CalculatorSpec, FieldSpec
from backend.core.catalogue import NAMES, calculator_named, calculators
from backend.core.declaring.spec import NEEDED, WORDS

METHODS = {"get", "post", "put", "patch", "delete"}


@pytest.fixture
def document(client):
    return client.get("/api/v1/openapi.json").get_json()


@pytest.fixture
def schema_of(document):
    """Find the schema of a calculator's body, references followed."""

    def follow(schema):
        # an object that may be left out, or none
        schema = schema.get("anyOf", [schema])[0]
        if "$ref" not in schema:
            return schema
        return document["components"]["schemas"][schema["$ref"].rpartition("/")[2]]

    def body_schema(name, *path):
        post = document["paths"][f"/api/v1/calculators/{name}"]["post"]
        schema = follow(post["requestBody"]["content"]["application/json"]["schema"])
        for step in path:
            schema = follow(schema[step] if step == "items" else schema["properties"][step])
        return schema

    return body_schema


def check_fields(fields, schema):
    """Assert that a schema says all that the declared fields say."""
    assert list(schema["properties"]) == [field.name for field in fields]
    needed = {field.name for field in fields if field.default == NEEDED}
    assert set(schema.get("required", [])) == needed
    assert schema["additionalProperties"] is False
    for field in fields:
        said = schema["properties"][field.name]
        assert said["description"].startswith(field.help)
        assert said["x-quantity"] == field.quantity
        if field.default != NEEDED:
            assert said["default"] == field.default
            # a number or its text has no one type, and an object is described elsewhere
            types = (
                said["anyOf"][-1]["type"] if field.fields and "anyOf" in said else said.get("type", [])[-1:]
            )
            assert field.has_numbers or "null" in types
        if field.choices:
            numbers = [int(choice) for choice in field.choices if field.has_numbers and choice.isdigit()]
            assert [one for one in said["enum"] if one is not None] == [*field.choices, *numbers]
        elif field.quantity in WORDS:
            assert said["maxLength"] == field.most
        elif field.quantity == "list":
            assert said["maxItems"] == field.most
            assert said.get("minItems") == field.fewest
        elif field.quantity not in ("flag", "object"):
            assert [said["minimum"], said["maximum"]] == [field.lowest, field.highest]


@pytest.mark.parametrize("name", NAMES)
def test_every_field_is_documented_with_limits_defaults_and_help(schema_of, name):
    inputs = calculator_named(name).inputs
    assert inputs
    check_fields(inputs, schema_of(name))


def test_rows_of_lists_are_documented_too(schema_of):
    for name in NAMES:
        for field in calculator_named(name).inputs:
            if field.quantity == "list" and field.fields:
                check_fields(field.fields, schema_of(name, field.name, "items"))
            elif field.fields:
                check_fields(field.fields, schema_of(name, field.name))


def test_an_object_instead_of_a_number_is_documented(schema_of):
    said = schema_of("thread", "spools", "items")["properties"]["at_home"]
    assert said["type"] == ["number", "object", "null"]
    assert said["required"] == list(said["properties"]) == ["grams", "empty", "tex"]
    assert said["properties"]["tex"]["minimum"] == 1
    assert said["additionalProperties"] is False


def test_a_length_says_its_unit(schema_of):
    said = schema_of("strip-length")["properties"]["loop"]
    assert said["description"] == "Relaxed inner length of the finished elastic ring (mm)"
    assert said["type"] == ["number", "null"]
    assert said["minimum"] == 10


def test_every_operation_documents_its_errors(document):
    for path, operations in document["paths"].items():
        post = operations.get("post")
        if not post:
            continue
        told = set(post["responses"]) - {"200", "204"}
        if "requestBody" in post:
            assert told >= {"400", "413", "415", "422"}, path
        if post.get("security"):
            assert told >= {"401", "403"}, path
        for status in told:
            content = post["responses"][status]["content"]
            assert content["application/problem+json"]["schema"] == {"$ref": "#/components/schemas/Problem"}


def test_operations_have_names_of_their_own(document):
    operations = [path[method] for path in document["paths"].values() for method in path if method in METHODS]
    names = [operation["operationId"] for operation in operations]
    assert len(set(names)) == len(names) > 2 * len(NAMES)


def test_what_a_description_holds_is_documented_key_by_key():
    calculator = calculators()[0].describe()
    assert CalculatorSpec().fields.keys() == calculator.keys()
    described = [
        field for known in calculators() for part in ("inputs", "outputs") for field in known.describe()[part]
    ]
    described += [row for field in described for row in field.get("fields", ())]
    keys = {key for field in described for key in field}
    assert FieldSpec().fields.keys() == keys


def test_the_api_page_asks_no_other_host_and_has_no_script_or_style_of_its_own(client):
    page = client.get("/api.html").get_data(as_text=True)
    assert "://" not in page
    assert "style=" not in page and "<style" not in page
    assert page.count("<script ") == page.count("></script>") == page.count('src="/api-page.js"') == 1
    for path in ("/api-page.js", "/styles/api.css", "/styles/tokens.css"):
        assert path in page
        assert client.get(path).status_code == 200


def test_what_is_asked_for_only_with_some_choices_names_a_choice_before_it(client):
    found = []
    for calculator in client.get("/api/v1/calculators").get_json()["calculators"]:
        before = {}
        for field in calculator["inputs"]:
            if "when" in field:
                found.append(field["name"])
                assert set(field["when"]["choices"]) < set(before[field["when"]["field"]]["choices"])
                assert not field["required"]
            before[field["name"]] = field
    assert found == ["layers", "layer_thickness", "blade_cuts"]
