"""The pages in the browser's Python: each answers there as here, byte for byte."""

import io
import json
import re
import runpy
import tempfile
from itertools import count
from pathlib import Path
from random import Random
from urllib.parse import urlencode
from zipfile import ZipFile

import pytest

from evenstand.book.exchange import export_book
from evenstand.book.opening import open_book
from evenstand.demo.book import fill

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
PAGES = runpy.run_path(str(HERE / "pages.py"))
READERS = ("units=us&language=en", "units=metric&language=es")
LINK = re.compile(r'(?:href|src)="(/[^"#]*)')
# All 20 rows in one bag; then the same without its weight.
CATCH = {"setting": "30", "gear": "full", "turns": "20", "rows_caught": "20", "net": "35.33 oz"}
SLIP = CATCH | {"net": "", "turns": "many"}
OF_A_FILE = ("ETag", "Date")  # of its date on a disk, which is not the page's
OF_PACKING = ("Content-Length",)
OF_ACCOUNTS = {"people.sign_in", "people.own"}  # a phone has none: its owner is assumed
# A PDF is set and a workbook written at the office alone.
OF_OFFICE = {"record.pdf", "record.worksheet_pdf", "record.card_pdf", "record.season_pdf"}
OF_OFFICE |= {"tables.xlsx"}
# What a phone loads is sent by the office; its own page is compared in tests/phone.
OF_OFFICE |= {"phone_files.install", "phone_files.service_worker", "phone_files.file"}
OF_OFFICE |= {"this_phone.index"}
COUNT = {"sample1_seeds": "560", "sample1_weight": "20 g"}
SPROUTS = {"dish1_seeds": "100", "dish1_sprouted": "81"}
OWN_WAY = {"member3_box": "grain", "box1_carrier": "sand", "box1_carrier_rate": "6 kg/ha"}
BATCHES = {"batch": "500 lb", "pass_length": "1290 ft", "box1_catches": "6 lb"}
PLACES = {"way": "row", "length": "3 ft", "plants": "31 27, 35", "gaps": "8 in\n0\n0"}
FEW = PLACES | {"gaps": "8 in"}  # a line is missing
LOAD = {"box": "grain", "at": "0 ac", "bags": "24", "bag": "50 lb", "edge": "1200 lb"}
BARE = LOAD | {"bag": ""}
READ = {"box": "grain", "at": "8 ac", "left": "760 ± 6 lb"}
# name;area [ac] and then "Fallow, south";12,5
TABLE = {"kind": "fields", "carried": "bmFtZTthcmVhIFthY10KRmFsbG93LCBzb3V0aDsxMiw1Cg=="}
CHART = "20 36\n30 54"
ENTRY = "01a21037-7680-7000-8000-00000000000{}"


def demo_book(file):
    """Write the demo book as it was made over two hours of 24 November."""
    minutes = count(PAGES["NOW"] - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        export_book(book, file)


def addresses(pages):
    """Follow every link from the list of jobs on."""
    found, todo = {}, ["/"]
    while todo:
        path = todo.pop(0)
        if path not in found and not any(each in path for each in (".pdf", ".xlsx")):
            found[path] = pages.ask(path)
            todo += [link.replace("&amp;", "&") for link in LINK.findall(found[path][2])]
    return list(found)


def forms(pages):
    """Write into the first job, with a mistake at first, and ask how it looks then."""
    job = f"/jobs/{pages.book.things('job')[0].id}"
    drill = f"/drills/{pages.book.things('drill')[0].id}"
    lot = f"/seed/{pages.book.things('lot')[0].id}"
    return [
        f"{job}/set {urlencode(SLIP | {'entry': ENTRY.format(1)})}",
        f"{job}/set {urlencode(CATCH | {'entry': ENTRY.format(1)})}",
        f"{job}/set?box=grain",
        f"/catches/{ENTRY.format(1)}",
        f"/catches/{ENTRY.format(1)} {urlencode(CATCH | {'turns': '21', 'why': 'miscounted'})}",
        f"/history/{ENTRY.format(1)}",
        f"{drill}/charts/draw {urlencode({'points': CHART, 'unit': 'lb/ac'})}",
        "/jobs/new name=&speed=fast",
        "/drills/new name=Crane&rows=0",
        "/seed/new species=oats&purity=x",
        f"{lot}/counts/new {urlencode(COUNT | {'entry': ENTRY.format(2)})}",
        f"/counts/{ENTRY.format(2)}?within=2+%25",
        f"{lot}/tests/new {urlencode(SPROUTS | {'entry': ENTRY.format(3)})}",
        f"/tests/{ENTRY.format(3)}",
        lot,
        f"{job}/boxes box1_full=120+%25",
        f"{job}/boxes {urlencode(OWN_WAY | {'entry': ENTRY.format(4)})}",
        f"{job}/boxes?sample=rye+160,+vetch+26,+radish+14,+clover+300&achieved=grain+%2B3+%25",
        f"{job}/boxes/rates entry={ENTRY.format(5)}",
        f"{job}/boxes?changed={ENTRY.format(5)}",
        f"{job}/order batch=no",
        f"{job}/order {urlencode(BATCHES | {'entry': ENTRY.format(6)})}",
        f"{job}/order",
        f"{job}/sow/load {urlencode(BARE | {'entry': ENTRY.format(8)})}",
        f"{job}/sow/load {urlencode(LOAD | {'entry': ENTRY.format(8)})}",
        f"{job}/sow/level {urlencode(READ | {'entry': ENTRY.format(9)})}",
        f"{job}/sow?box=grain",
        f"/sown/{ENTRY.format(9)}",
        f"{job}/stand {urlencode(FEW | {'entry': ENTRY.format(7)})}",
        f"{job}/stand {urlencode(PLACES | {'entry': ENTRY.format(7)})}",
        f"{job}/stand/wish {urlencode({'wish': '18 plants/ft²', 'crop': 'winter wheat'})}",
        f"{job}/stand",
        f"{job}/stand?apart=yes",
        f"/plants/{ENTRY.format(7)}",
        f"/tables/look {urlencode(TABLE | {'column1': ''})}",
        f"/tables/look {urlencode(TABLE | {'column1': 'field_note', 'column0': ''})}",
        f"/tables/take {urlencode(TABLE)}",
        "/tables/fields.csv",
        "/book/check x=",
        "/book/export",
        job,
    ]


def programs(pages):
    """Ask the API for everything that it tells."""
    book = pages.book
    jobs, drill = [f"/api/jobs/{job.id}" for job in book.things("job")], book.things("drill")[0].id
    steps = ("steps", "mix", "boxes", "order", "set?units=metric", "rows", "sow", "stand")
    return [
        *("/api/", "/api/openapi.json", "/api/things?kind=lot", "/api/entries?limit=1000"),
        *(f"/api/things/{drill}", f"/api/things/{drill}/history", "/api/species?name=hairy+vetch"),
        *(f"{job}/{step}" for job in jobs for step in steps),
        *("/api/check", "/api/export", "/api/nowhere", "/api/things"),
    ]


def compared(request, answer):
    """Return all of a page; a file without its date, a zip as what is in it."""
    status, headers, body = answer
    said = dict(headers)
    assert len(said) == len(headers)
    left_out = OF_A_FILE if request.startswith("/static/") else ()
    if said["Content-Type"] == "application/zip":  # how tight it is packed depends on the zlib
        with ZipFile(io.BytesIO(body.encode("latin-1"))) as packed:
            left_out, body = OF_PACKING, {name: packed.read(name) for name in packed.namelist()}
    return status, {name: said[name] for name in said if name not in left_out}, body


@pytest.fixture(scope="module")
def demo():
    """The demo book's file and everything to ask, in a folder that is seen on both sides."""
    (ROOT / "build").mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(dir=ROOT / "build") as folder:
        file = Path(folder) / "book.zip"
        demo_book(file)
        pages = PAGES["Pages"](file)
        paths = addresses(pages)
        asked = [x for reader in READERS for x in (f"/book/reading {reader}", *paths)]
        asked += ["/nowhere", *programs(pages), *forms(pages)]
        (Path(folder) / "requests.json").write_text(json.dumps(asked), encoding="utf-8")
        yield Path(folder), asked, pages.app
        pages.book.close()


@pytest.fixture(scope="module")
def here(demo):
    folder, asked, _ = demo
    return PAGES["answers"](folder / "book.zip", asked)


def test_every_page_is_asked_for(demo, here):
    """What no link of the demo book leads to would never be compared."""
    _, asked, app = demo
    found = app.url_map.bind("localhost")
    shown = [
        path.split("?")[0] for path, answer in zip(asked, here, strict=True) if answer[0] == 200
    ]
    reached = {found.match(path)[0] for path in shown if found.test(path, "GET")}
    pages = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in rule.methods}
    assert pages - reached - OF_ACCOUNTS - OF_OFFICE == set()


def test_forms_are_taken_or_refused(demo, here):
    """A page that only ever said no would be compared for nothing."""
    _, asked, _ = demo
    boxes_and_order = (422, 303, 303, 422, 303)
    codes = [one[0] for request, one in zip(asked, here, strict=True) if " " in request]
    assert codes == [
        303,
        303,
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


def test_every_page_answers_there_as_here(demo, here, pyodide):
    folder, asked, _ = demo
    done = pyodide("pages.py", folder.relative_to(ROOT).as_posix())
    assert done.returncode == 0, done.stderr[-5_000:]
    there = json.loads(done.stdout)
    pairs = [
        (request, compared(request, one), compared(request, other))
        for request, one, other in zip(asked, here, there, strict=True)
    ]
    assert [row for row in pairs if row[1] != row[2]] == []
