"""The document of the API is that of the app: every operation, every type, every input."""

import json
import re
from pathlib import Path

import jsonschema
import pytest
from click import Context

from evenstand.book.kinds.bodies import KINDS
from evenstand.book.kinds.details import details
from evenstand.book.kinds.seed import Range
from evenstand.book.kinds.shape import Typed
from evenstand.compose import command_line

METHODS = {"GET", "POST", "PUT", "DELETE", "PATCH"}


@pytest.fixture
def document(client):
    return client.get("/api/openapi.json").json


def test_document_and_app_have_the_same_operations(client, document):
    said = {
        (method.upper(), "/api" + path)
        for path, operations in document["paths"].items()
        for method in operations
    }
    rules = [r for r in client.application.url_map.iter_rules() if r.endpoint.startswith("api.")]
    there = {
        (method, rule.rule.replace("<", "{").replace(">", "}"))
        for rule in rules
        for method in rule.methods & METHODS
    }
    assert said == there


def test_the_index_names_every_operation(client, document):
    index = client.get("/api/").json
    assert len(index["operations"]) == sum(len(each) for each in document["paths"].values())
    assert client.get(index["document"]).json == document


def test_every_reference_leads_somewhere(document):
    text = json.dumps(document)
    found = {part.split('"')[0] for part in text.split("#/components/schemas/")[1:]}
    assert found <= set(document["components"]["schemas"])


def test_every_schema_is_one(document):
    for name, schema in document["components"]["schemas"].items():
        jsonschema.Draft202012Validator.check_schema(schema), name


def test_every_kind_can_be_sent(document):
    kinds = {each["properties"]["kind"]["const"] for each in _new(document)}
    assert kinds == set(KINDS) - {"removal"}


def _new(document):
    return document["components"]["schemas"]["New"]["oneOf"]


def test_no_result_has_the_name_of_a_type():
    """Two of one name would be one in the document."""
    from evenstand.web.api.schemas import NAMES

    bodies = {kind.__name__ for kind in KINDS.values()}
    assert not set(NAMES.values()) & (
        bodies | {"Tag", "Member", "Scale", "Problem", "Kept", "Page"}
    )


@pytest.mark.parametrize("name", ["turns", "catch", "rows", "tag"])
def test_a_command_takes_the_same_inputs(document, name):
    kind = f"{name.capitalize()}Asked"
    said = document["components"]["schemas"][kind]
    line = command_line()
    options = {option.name: option for option in line.get_command(Context(line), name).params}
    flags = set(options) - {"as_json", "units", "working", "help"}
    assert set(said["properties"]) == flags
    assert set(said.get("required", [])) == {x for x in flags if options[x].required}


def test_every_amount_that_is_kept_says_what_it_measures():
    """Write it beside the field, in `evenstand.book`: its text cannot be read without."""
    todo, seen = list(KINDS.values()), set()
    while todo:
        kind = todo.pop()
        seen.add(kind)
        for each in details(kind):
            if each.part in (Typed, Range):
                assert each.measure is not None, f"{kind.__name__}.{each.name}"
            elif each.part and each.part not in seen:
                todo.append(each.part)


PAGE = (Path(__file__).parents[3] / "docs/api.md").read_text(encoding="utf-8")


def test_the_refusal_on_the_page_is_one(client):
    shown = json.loads(re.search(r"```json\n(.*?)```", PAGE, re.DOTALL)[1])
    drill = {"name": "Heron", "rows": 20, "spacing": {"text": "7.5 in"}}
    body = {**drill, "scale": {"low": 60, "high": 0}}
    assert client.post("/api/things", json={"kind": "drill", "body": body}).json == shown


def test_what_the_page_sends_is_answered(client):
    sent = re.search(r"-d '(.*?)'", PAGE, re.DOTALL)[1]
    answer = client.post("/api/catch", data=sent, content_type="application/json")
    assert answer.status_code == 200
    assert answer.json["verdict"]


def test_the_page_names_every_address(document):
    paths = [path.rsplit("/", 1)[-1] for path in document["paths"]]
    assert [last for last in paths if last and f"/{last}" not in PAGE] == []
