"""What a phone loads, run in Node.js: each page answers there as here, byte for byte."""

import io
import json
import runpy
import subprocess
from itertools import count
from pathlib import Path
from random import Random
from zipfile import ZipFile

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

HERE = Path(__file__).parent
PAGES = runpy.run_path(str(HERE / "pages.py"))
REQUESTS = runpy.run_path(str(HERE / "requests.py"))
MOST_OPEN = "Alder Bench, fall cover"  # the job that forms are sent to
OF_ACCOUNTS = {"people.sign_in", "people.own", "people.index", "devices.index"}  # a phone has none
# A PDF is set and a workbook written at the office alone.
OF_OFFICE = {"record.pdf", "record.worksheet_pdf", "record.card_pdf", "record.season_pdf"}
OF_OFFICE |= {"tables.xlsx"}
OF_OFFICE |= {"api.describe"}  # from docstrings, which a phone does not carry
# What a phone loads is sent by the office, and the service worker has it.
OF_OFFICE |= {"phone_files.install", "phone_files.service_worker", "phone_files.file", "static"}
LEADS_ON = {"moved.lead"}  # an old address answers with the new one alone


@pytest.fixture(scope="module")
def demo():
    """The demo book as it was made over two hours of 24 November: its entries, some things."""
    minutes = count(PAGES["NOW"] - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        with book.all_entries() as found:
            entries = [entry.text for entry in found]
        things = {kind: [each.id for each in book.things(kind)] for kind in ("drill", "lot")}
        open_job = next(job for job in book.things("job") if job.body.name == MOST_OPEN)
        others = [each.id for each in book.things("job") if each.id != open_job.id]
        return entries, things | {"job": [open_job.id, *others]}


@pytest.fixture(scope="module")
def asked(demo):
    entries, things = demo
    return REQUESTS["all_requests"](PAGES["Pages"](entries), things)


@pytest.fixture(scope="module")
def here(demo, asked):
    """Each request, and what is answered in this Python."""
    told = PAGES["answers"](demo[0], asked)
    return list(zip(asked, json.loads(json.dumps(told)), strict=True))


def test_every_page_is_asked_for(demo, here):
    """What no link of the demo book leads to would never be compared."""
    rules = PAGES["Pages"](demo[0]).phone._bridge._app.url_map
    found = rules.bind("localhost")
    shown = [request.split("?")[0] for request, answer in here if answer[0] == 200]
    reached = {found.match(path)[0] for path in shown if found.test(path, "GET")}
    pages = {rule.endpoint for rule in rules.iter_rules() if "GET" in rule.methods}
    assert pages - reached - OF_ACCOUNTS - OF_OFFICE - LEADS_ON == set()


def test_forms_are_taken_or_refused(asked, here):
    """A page that only ever said no would be compared for nothing."""
    pairs = here[asked.index("/nowhere") :]
    boxes_and_order = (422, 303, 303, 422, 303)
    assert [answer[0] for request, answer in pairs if " " in request] == [
        *(422, 303, 303),
        200,
        *(422, 422),
        *(422, 303, 303),
        *boxes_and_order,
        *(422, 303, 303),
        *(422, 303, 303),
        *(200, 422, 303),
        200,
    ]


def plain(answer):
    """A page as it is; of a zip what is in it, for how tight it is packed depends on the zlib."""
    status, headers, body, *rest = answer
    if headers["Content-Type"] == "application/zip":
        with ZipFile(io.BytesIO(body.encode("latin-1"))) as packed:
            body = {name: packed.read(name).decode() for name in packed.namelist()}
        headers = {name: value for name, value in headers.items() if name != "Content-Length"}
    return [status, headers, body, *rest]


@pytest.fixture
def asked_there(bundle, tmp_path):
    """Ask the Python of a phone, started from what its first start left or anew."""

    def asked_there(entries, requests, *how):
        asked = json.dumps({"entries": entries, "requests": requests})
        (tmp_path / "asked.json").write_text(asked)
        command = ["node", HERE / "run.mjs", bundle, HERE / "pages.py", tmp_path, *how]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr[-3000:]
        return json.loads((tmp_path / "told.json").read_text())["answers"]

    return asked_there


def test_every_page_answers_there_as_here(demo, here, asked_there):
    assert {200, 303, 404, 422, 507} <= {answer[0] for _, answer in here}
    there = asked_there(demo[0], [request for request, _ in here])
    pairs = [(*pair, answer) for pair, answer in zip(here, there, strict=True)]
    assert [each for each in pairs if plain(each[1]) != plain(each[2])] == []


def test_a_first_start_answers_as_those_that_go_on_from_it(demo, here, asked_there):
    some = here[:40]
    there = asked_there(demo[0], [request for request, _ in some], "anew")
    assert [plain(answer) for answer in there] == [plain(answer) for _, answer in some]
