"""Results through the API: those of the commands, from the same inputs, and of the book's jobs."""

import json
import tomllib
from importlib.resources import files

import jsonschema
import pytest
from click.testing import CliRunner

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

TODAY = "2026-11"
CATCH = {
    "rows": "24",
    "spacing": "7.5 in",
    "rolled": "95 in",
    "turns": "18 1/3",
    "rows_caught": "4",
    "net": "8.00 oz",
    "target": "60 lb/ac",
}
TAG = {
    "species": "hairy vetch",
    "purity": "98%",
    "germination": "80%",
    "hard": "12%",
    "seeds_per_lb": "16,500",
    "rate": "15 lb/ac",
    "basis": "pls",
    "tested": "2026-08",
}
ROWS = {
    "weights": "22.6, 22.4, 22.9, 22.1, 18.3, 22.7, 22.5, 22.2 g",
    "resolution": "0.1 g",
    "limit": "10%",
}
TURNS = {"rows": "24", "spacing": "7.5 in", "rolled": "95 in", "area": "1/20 ac", "speed": "5 mph"}


OFFERS = """
[[lots]]
name = "O-1"
species = "oats"
purity = "100%"
germination = "90%"
seeds_per_lb = 12500
price = "0.2 $/lb"

[[mix]]
lot = "O-1"

[mix_goal]
goal = "least cost"

[[mix_goal.limits]]
what = "seeds"
at_least = "20 seeds/ft2"
"""
DRILL = '\n[drill]\nrows = 20\nspacing = "7.5 in"\n'


def job(name):
    return (files("evenstand.demo") / f"{name}.toml").read_text(encoding="utf-8")


@pytest.fixture
def command(tmp_path):
    """Run a command for its JSON."""
    from evenstand.compose import command_line

    def run(name, *arguments, **flags):
        words = [name, *arguments, "--json"]
        for key, texts in flags.items():
            for text in texts if isinstance(texts, list) else [texts]:
                words += ["--" + key.replace("_", "-"), text]
        done = CliRunner().invoke(command_line(), words)
        assert done.exit_code == 0, done.output
        return json.loads(done.stdout)

    return run


def fits(client, path, said, *, method="get"):
    """See that an answer is what the document says of it."""
    document = client.get("/api/openapi.json").json
    answers = document["paths"][path][method]["responses"]["200"]
    schema = answers["content"]["application/json"]["schema"]
    jsonschema.validate(said, schema | {"components": document["components"]})


@pytest.fixture
def reckon(client):
    def asked(name, sent, code=200, **query):
        answer = client.post(f"/api/{name}", json=sent, query_string=query)
        assert answer.status_code == code, answer.text
        if code == 200:
            fits(client, f"/{name}", answer.json, method="post")
        return answer.json

    return asked


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize(
    ("name", "inputs"),
    [
        ("turns", TURNS),
        ("catch", CATCH),
        ("catch", CATCH | {"again": ["8.1 oz", "7.9 oz"]}),
        ("rows", ROWS),
        ("rows", ROWS | {"again": ["22.6, 22.4, 22.9, 22.1, 18.3, 22.7, 22.5, 22.2 g"]}),
        ("rows", ROWS | {"columns": ["front, rear", "box: 1, 1, 1, 1, 2, 2, 2, 2"]}),
        ("tag", TAG | {"today": TODAY}),
    ],
)
def test_a_command_and_the_api_say_the_same(command, reckon, *, name, inputs, units):
    assert reckon(name, inputs, units=units) == command(name, units=units, **inputs)


@pytest.mark.parametrize("name", ["mix", "boxes", "order"])
@pytest.mark.parametrize("file", ["alder_bench", "teal"])
def test_a_job_file_and_its_tables_say_the_same(command, reckon, tmp_path, *, name, file):
    text = job(file) + ("" if "[drill]" in job(file) else DRILL)
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    sent = {"job": tomllib.loads(text), "today": TODAY}
    assert reckon(name, sent) == command(name, str(tmp_path / "job.toml"), today=TODAY)


def test_the_best_mix_is_that_of_the_command(command, reckon, tmp_path):
    pytest.importorskip("highspy", reason="the search needs its solver")
    (tmp_path / "job.toml").write_text(OFFERS, encoding="utf-8")
    said = reckon("solve", {"job": tomllib.loads(OFFERS), "today": TODAY})
    assert said["proven"]
    assert said == command("mix", str(tmp_path / "job.toml"), "--solve", today=TODAY)


def test_where_the_solver_is_missing_the_api_says_so(reckon, without):
    without("highspy")
    (refused,) = reckon("solve", {"job": tomllib.loads(OFFERS)}, 422)["errors"]
    assert refused["field"] == "mix_goal"
    assert refused["need"] == "use a computer that has the solver: it isn't installed here"


def test_samples_and_rates_reached_are_taken(command, reckon, tmp_path):
    (tmp_path / "job.toml").write_text(job("alder_bench"), encoding="utf-8")
    sample = "rye 160, vetch 26, radish 14"
    said = reckon(
        "boxes",
        {
            "job": tomllib.loads(job("alder_bench")),
            "today": TODAY,
            "samples": [sample],
            "achieved": "grain +3%",
        },
    )
    file = str(tmp_path / "job.toml")
    assert said == command("boxes", file, today=TODAY, sample=[sample], achieved="grain +3%")
    assert said["samples"]
    assert said["achieved"]


def test_a_box_of_a_job_file_is_set(reckon):
    tables = tomllib.loads(job("teal"))
    box = tables["boxes"][0]["name"]
    found = reckon("set", {"job": tables, "box": box, "today": TODAY})
    assert found["choose"]["rate"]["unit"] == "lb/ac"


HERON = {
    "drill": {"rows": 20, "spacing": "7.5 in", "rolled": "95 in", "scale": {"low": 0, "high": 60}},
    "chart": {"points": [[20, "36 lb/ac"], [30, "54 lb/ac"]]},
    "target": {"rate": "54 lb/ac"},
}


def test_the_next_notch_of_a_job_file(reckon):
    # Printed: 1.8 lb/ac a notch, so that 30 gives 54.
    assert reckon("set", {"job": HERON})["choose"]["setting"] == 30


@pytest.mark.parametrize(
    ("tables", "field"),
    [
        ({"drill": {"rows": 0}}, "[drill] rows"),
        ({"drill": 3}, "[drill]"),
        ({"drills": {}}, "[drills]"),
        ({"target": {"rat": "54 lb/ac"}}, "[target] rat"),
        ({"chart": {"points": [[20, "36 lb"]]}}, "[chart] points"),
        ({"catch": [{"setting": 30, "box": "grain"}]}, "box"),
    ],
)
def test_tables_that_cannot_be_used_are_refused(reckon, tables, field):
    refused = reckon("set", {"job": {**HERON, **tables}}, 422)
    assert refused["errors"][0]["field"] == field


@pytest.mark.parametrize(
    ("name", "change", "field"),
    [
        ("turns", {"rows": None}, "rows"),
        ("turns", {"rows": "none"}, "rows"),
        ("turns", {"wheel": "95 in"}, "wheel"),
        ("catch", {"net": "8 acres"}, "net"),
        ("catch", {"again": ["8 lb/ac"]}, "again"),
        ("tag", {"purity": "120%"}, "purity"),
        ("tag", {"today": "soon"}, "today"),
        ("rows", {"weights": "22.6"}, "weights"),
        ("rows", {"weights": "1, " * 995 + "1 g", "resolution": None}, "weights"),
    ],
)
def test_inputs_that_cannot_be_used_are_refused_under_their_names(reckon, *, name, change, field):
    inputs = {"turns": TURNS, "catch": CATCH, "tag": TAG, "rows": ROWS}[name] | change
    refused = reckon(name, {key: text for key, text in inputs.items() if text}, 422)
    assert refused["errors"][0]["field"] == field


def test_a_species_is_told(client, command):
    said = client.get("/api/species", query_string={"name": "hairy vetch"}).json
    assert said == command("species", "hairy", "vetch")
    assert client.get("/api/species?name=vetch").status_code == 422


@pytest.fixture(scope="module")
def demo():
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.web.run.app import create_app

    with open_book(":memory:", device="shed", who="Tamarack Flats") as book:
        fill(book)
        app = create_app(book)
        app.testing = True
        yield app.test_client(), book


def test_everything_of_the_demo_can_be_read_and_sent_back(demo):
    """A rule that refused what the forms had kept would be a second rule."""
    client, book = demo
    for kind, number in book.counts().items():
        things = client.get(f"/api/things?kind={kind}&limit=200").json["things"]
        assert len(things) == number
        for thing in things:
            path, newly = f"/api/things/{thing['id']}", {"body": thing["body"], "why": "as it is"}
            tag = client.get(path).headers["ETag"]
            answer = client.put(path, json=newly, headers={"If-Match": tag})
            assert (answer.status_code, answer.json.get("body")) == (200, thing["body"]), (
                answer.json
            )


def test_the_steps_of_a_job_are_those_of_its_page(demo):
    client, book = demo
    for thing in book.things("job"):
        page = client.get(f"/jobs/{thing.id}").text
        for line in client.get(f"/api/jobs/{thing.id}/steps").json["lines"]:
            assert line["title"] in page


def test_the_steps_of_a_job_are_in_the_units_that_are_asked_for(demo):
    client, book = demo
    said = [
        [client.get(f"/api/jobs/{job.id}/steps?units={units}").json for job in book.things("job")]
        for units in ("us", "metric")
    ]
    assert ["lb/ac" in str(each) for each in said] == [True, False]
    assert ["kg/ha" in str(each) for each in said] == [False, True]


@pytest.mark.parametrize("name", ["steps", "mix", "boxes", "order", "set", "rows", "sow", "stand"])
def test_the_results_of_the_demo_fit_the_document(demo, name):
    client, book = demo
    told = 0
    for thing in book.things("job"):
        answer = client.get(f"/api/jobs/{thing.id}/{name}")
        assert answer.status_code in (200, 422)
        if answer.status_code == 200:
            told += 1
            fits(client, f"/jobs/{{job}}/{name}", answer.json)
    assert told


def test_the_setting_of_a_job_is_that_of_its_page(demo):
    client, book = demo
    told = 0
    for thing in book.things("job"):
        answer = client.get(f"/api/jobs/{thing.id}/set", query_string={"units": "metric"})
        assert answer.status_code in (200, 422)
        if answer.status_code == 200:
            told += 1
            assert answer.json["choose"]["rate"]["unit"] == "kg/ha"
            assert (
                f"{answer.json['choose']['setting']:g}"
                in client.get(f"/jobs/{thing.id}/calibrate").text
            )
    assert told


def test_results_say_what_is_missing(client, visitor):
    job = visitor.job().rsplit("/", 1)[1]
    for step in ("mix", "boxes", "order", "rows"):
        answer = client.get(f"/api/jobs/{job}/{step}")
        assert answer.status_code == 422, step
        assert answer.json["detail"]
    assert client.get(f"/api/jobs/{job}/set?box=small").json["errors"][0]["field"] == "box"
    assert client.get(f"/api/jobs/{job}/set?units=roman").status_code == 422


def test_an_end_added_freezes_the_record_and_a_version_can_be_read(client, book):
    fill(book)
    end = book.things("finished")[0]
    job = end.body.job
    book.remove(end.id)
    for frozen in book.things("frozen", of=job):
        book.remove(frozen.id)
    body = json.loads(end.entry.text)["body"]
    assert client.get(f"/api/jobs/{job}/record").json["sha256"] == ""
    assert client.post("/api/things", json={"kind": "finished", "body": body}).status_code == 201
    [frozen] = book.things("frozen", of=job)
    found = client.get(f"/api/jobs/{job}/record?version=1&units=metric").json
    assert (found["document"], found["sha256"]) == ("record", frozen.body.sha256)
    refused = client.get(f"/api/jobs/{job}/record?version=2")
    assert (refused.status_code, refused.json["errors"][0]["field"]) == (422, "version")
    assert client.get("/api/jobs/nothing/record").status_code == 404
