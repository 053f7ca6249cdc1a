"""Pages on a narrow screen and on paper: nothing beside the edge, nothing for a finger on paper."""

import io
import re
import threading
from itertools import count
from pathlib import Path
from random import Random

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

CHROMIUM = Path("/usr/bin/chromium")
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
NOW = 1_795_568_400_000  # ms: 2026-11-25
NARROWEST = {"width": 320, "height": 640}  # WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels
ID = re.compile(r"[0-9a-f-]{36}")
LINK = re.compile(r'href="(/[^"#]*)')
NO_PAGES = ("/static/", "/book/export", "/photos/", "/api")
OPEN_ALL = "document.querySelectorAll('details').forEach(each => each.open = true)"
WIDTH = "document.documentElement.scrollWidth"
FOR_FINGERS = """
[...document.querySelectorAll("nav, button, .button, form:not(.long), input[type=file]")]
  .filter(each => each.checkVisibility()).map(each => each.outerHTML.slice(0, 80))
"""
SAYS = "document.querySelector('main').innerText.trim().length"
pytestmark = pytest.mark.skipif(
    not CHROMIUM.exists(), reason="needs Chromium: install the package chromium"
)


@pytest.fixture(scope="module")
def demo():
    pytest.importorskip("flask", reason="the pages need Flask")
    minutes = count(NOW - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        yield book


@pytest.fixture(scope="module")
def app(demo):
    from evenstand.web.app import create_app

    return create_app(demo)


@pytest.fixture(scope="module")
def paths(app):
    """One page of each kind that links lead to."""
    client, seen, one, todo = app.test_client(), set(), {}, ["/"]
    while todo:
        path = todo.pop(0)
        if path in seen or path.startswith(NO_PAGES):
            continue
        seen.add(path)
        answer = client.get(path)
        if answer.mimetype == "text/html":
            one.setdefault(ID.sub("ID", path).partition("?")[0], path)
            todo += [link.replace("&amp;", "&") for link in LINK.findall(answer.text)]
    return list(one.values())


@pytest.fixture(scope="module")
def screen(app):
    """A narrow screen whose reader reads Spanish, the longer language."""
    api = pytest.importorskip("playwright.sync_api", reason="needs playwright")
    server = pytest.importorskip("waitress.server").create_server(app, host="127.0.0.1", port=0)
    running = threading.Thread(target=server.run, daemon=True)
    running.start()
    with api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        address = f"http://127.0.0.1:{server.effective_port}"
        yield browser.new_page(viewport=NARROWEST, base_url=address, locale="es-MX")
        browser.close()
    server.close()
    running.join(timeout=5)


def test_no_page_is_wider_than_a_narrow_screen(screen, paths):
    wide = {}
    for path in paths:
        screen.goto(path)
        screen.evaluate(OPEN_ALL)
        wide[path] = screen.evaluate(WIDTH)
    assert {path: width for path, width in wide.items() if width > NARROWEST["width"]} == {}
    assert len(paths) > 30


def test_paper_has_what_was_found_out_and_nothing_to_press(screen, paths):
    screen.emulate_media(media="print")
    left = {}
    for path in paths:
        screen.goto(path)
        left[path] = screen.evaluate(FOR_FINGERS)
        assert screen.evaluate(SAYS) > 0, path
    screen.emulate_media(media="screen")
    assert {path: found for path, found in left.items() if found} == {}


def test_a_page_prints_on_few_sheets(screen, paths):
    pypdf = pytest.importorskip("pypdf", reason="needs pypdf")
    job = next(path for path in paths if re.fullmatch(rf"/jobs/{ID.pattern}", path))
    screen.goto(job)
    printed = pypdf.PdfReader(io.BytesIO(screen.pdf(format="Letter")))
    assert len(printed.pages) <= 2
    text = printed.pages[0].extract_text()
    assert "Alder Bench" in text or "Teal Draw" in text
    assert "Trabajos\nSembradoras" not in text
