"""What a phone loads, run in Node.js: each page answers there as here, byte for byte."""

import io
import json
import re
import runpy
import subprocess
from pathlib import Path
from urllib.parse import urlencode
from zipfile import ZipFile

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

HERE = Path(__file__).parent
PAGES = runpy.run_path(str(HERE / "pages.py"))
LINK = re.compile(r'(?:href|src)="(/[^"#]*)')
READERS = ("units=us&language=en&decimal=point", "units=metric&language=es&decimal=comma")
CATCH = {"setting": "30", "turns": "20", "rows_caught": "20", "net": "35.33 oz"}
ENTRY = "01a21037-7680-7000-8000-00000000000{}"
BY_FILE = ("/static/", "/phone/", "/sw.js")  # what the service worker has or fetches itself


@pytest.fixture(scope="module")
def entries():
    """The demo book, as it would lie in the log of a phone."""
    with open_book(":memory:", device="shed", who="Tamarack Flats") as book:
        fill(book)
        with book.all_entries() as found:
            return [entry.text for entry in found]


def addresses(entries):
    """Follow every link from the list of jobs on, a page at a time."""
    found, todo = [], ["/", "/this-phone"]
    while todo:
        pages = [path for path in dict.fromkeys(todo) if path not in found]
        found += pages
        told = PAGES["answers"](entries, pages)
        links = [
            link.replace("&amp;", "&") for _, _, body, *_ in told for link in LINK.findall(body)
        ]
        todo = [x for x in links if x not in found and not x.startswith(BY_FILE)]
    return found


def forms(entries):
    """Send what is right and what is wrong to the first job."""
    job = next(each["about"] for each in map(json.loads, entries) if each["kind"] == "job")
    return [
        f"/jobs/{job}/set {urlencode(CATCH | {'entry': ENTRY.format(1)})}",
        f"/jobs/{job}/set {urlencode(CATCH | {'turns': 'many'})}",
        f"/jobs/{job}/set",
        "/drills/new name=&rows=0",
        "/seed/new species=oats&purity=x",
        "/this-phone/not-kept QuotaExceededError",
        "/api/check",
        "/devices",
        "/nowhere",
    ]


def plain(answer):
    """A page as it is; of a zip what is in it, for how tight it is packed depends on the zlib."""
    status, headers, body, *rest = answer
    if headers["Content-Type"] == "application/zip":
        with ZipFile(io.BytesIO(body.encode("latin-1"))) as packed:
            body = {name: packed.read(name).decode() for name in packed.namelist()}
        headers.pop("Content-Length")
    return [status, headers, body, *map(list, rest[0]), rest[1]]


def test_every_page_answers_there_as_here(bundle, entries, tmp_path):
    paths = addresses(entries)
    asked = [x for way in READERS for x in (f"/book/reading {way}", *paths)] + forms(entries)
    here = json.loads(json.dumps(PAGES["answers"](entries, asked)))
    (tmp_path / "asked.json").write_text(json.dumps({"entries": entries, "requests": asked}))
    command = ["node", HERE / "run.mjs", bundle, HERE / "pages.py", tmp_path]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-3000:]
    there = json.loads((tmp_path / "told.json").read_text())["answers"]
    assert len(paths) > 60
    assert {200, 303, 404, 422, 507} <= {answer[0] for answer in here}
    pairs = zip(asked, map(plain, here), map(plain, there), strict=True)
    assert [row for row in pairs if row[1] != row[2]] == []
