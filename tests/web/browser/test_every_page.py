"""Every page of the invented book: looked at in English, in Spanish as narrow and on paper.

Links are followed as a person would. Of pages of one kind, such as the histories of two catches,
another is looked at where it has an element that those before it have not. With PICTURES=1 in the
environment, pictures of all lie in build/screenshots afterwards.
"""

import os
import re
from html.parser import HTMLParser

import pytest

LINK = re.compile(r'href="(/[^"#]*)')
NO_PAGES = ("/static/", "/settings/export", "/photos/", "/api")
DRAWN = ("path", "circle", "rect", "line", "polyline", "text", "tspan", "g", "title", "desc")
NAMES = {"jobs.show": "job", "drills.show": "drill", "seed.show": "lot"}
DARK = ("jobs", "job", "set", "mix", "boxes", "order", "sow", "stand", "lot", "drills-new")
FOR_FINGERS = """
[...document.querySelectorAll("nav, button, .button, form:not(.long), input[type=file]")]
  .filter(each => each.checkVisibility()).map(each => each.outerHTML.slice(0, 80))
"""
# A Letter sheet between its margins of 14 mm: 8.5 in × 96 − 2 × 14 mm × 96 / 25.4.
SHEET = {"width": 710, "height": 900}
MOST_SHEETS = 8
WIDTH = "document.documentElement.scrollWidth"


class Shape(HTMLParser):
    """Of which elements a page is made, whatever they say."""

    def __init__(self, html):
        super().__init__()
        self.of = set()
        self.feed(html)

    def handle_starttag(self, name, attributes):
        said = dict(attributes)
        if name not in DRAWN:
            self.of.add((name, said.get("class"), said.get("type")))


@pytest.fixture(scope="module")
def pages(demo_app):
    """Addresses that have between them each element of each kind of page, by names that stay."""
    client, seen, found, shown, todo = demo_app.test_client(), set(), {}, {}, ["/"]
    while todo:
        path = todo.pop(0)
        if path in seen or path.startswith(NO_PAGES):
            continue
        seen.add(path)
        answer = client.get(path)
        if answer.mimetype != "text/html":
            continue
        todo += [link.replace("&amp;", "&") for link in LINK.findall(answer.text)]
        kind = demo_app.url_map.bind("localhost").match(path.partition("?")[0])[0]
        before = shown.setdefault(kind, set())
        if more := Shape(answer.text).of - before:
            before |= more
            found[_name(kind, found)] = path
    return found | {"nowhere": "/nowhere"}


def _name(kind, taken):
    """Give ``set``, ``set-2``: what a page is of, and the how-manieth that is made otherwise."""
    name = NAMES.get(kind) or re.sub(r"\W|_", "-", re.sub(r"\.(show|index)$", "", kind))
    same = [each for each in taken if re.fullmatch(rf"{name}(-\d+)?", each)]
    return f"{name}-{len(same) + 1}" if same else name


@pytest.fixture(scope="module")
def visited(chromium, demo_address, pages, *, sizes, inspect, shots):
    """What was found on each page: on the screen and on paper."""
    pdfium = pytest.importorskip("pypdfium2", reason="needs pypdfium2")
    of_site = {"viewport": sizes["phone"], "base_url": demo_address}
    contexts = [chromium.new_context(locale=each, **of_site) for each in ("en-US", "es-MX")]
    english, spanish = (context.new_page() for context in contexts)
    on_paper = {}
    for name, path in pages.items():
        english.goto(path)
        first = not name[-1].isdigit()
        if first and "PICTURES" in os.environ:
            _take(english, sizes, shots / name)
        inspect(english, name)
        spanish.goto(path)
        on_paper[name] = (*_laid_out(spanish), _printed(spanish, pdfium) if first else ["–"])
        inspect.keep(f"{name} in Spanish", inspect.cut_off(spanish))
    for context in contexts:
        context.close()
    return inspect.faults, on_paper


def _take(page, sizes, file):
    """Keep how a page looks: on a phone, in the dark too for some, and on a desk."""
    page.screenshot(path=f"{file}-phone.png", full_page=True)
    if file.name in DARK:
        page.emulate_media(color_scheme="dark")
        page.screenshot(path=f"{file}-phone-dark.png", full_page=True)
        page.emulate_media(color_scheme="light")
    page.set_viewport_size(sizes["desk"])
    page.screenshot(path=f"{file}-desk.png", full_page=True)
    page.set_viewport_size(sizes["phone"])


def _laid_out(page):
    """Say what a page has on paper that cannot be pressed there, and how wide it is."""
    page.set_viewport_size(SHEET)
    page.emulate_media(media="print")
    found = page.evaluate(FOR_FINGERS), page.evaluate(WIDTH)
    page.emulate_media(media="screen")
    return found


def _printed(page, pdfium):
    """Give what stands on each sheet."""
    with pdfium.PdfDocument(page.pdf(format="Letter")) as sheets:
        return [sheet.get_textpage().get_text_range().strip() for sheet in sheets]


def test_nothing_is_wrong_on_any_page(visited, pages):
    """By axe in light and dark, at 320 px in both languages, and under gloves."""
    assert visited[0] == {}
    assert len(pages) > 60


def test_paper_has_nothing_to_press_and_nothing_is_cut_off(visited):
    for name, (left, width, _) in visited[1].items():
        assert (name, left, width) == (name, [], SHEET["width"])


def test_each_page_prints_on_few_sheets_and_none_is_empty(visited):
    for name, (_, _, sheets) in visited[1].items():
        assert all(sheets), name
        assert len(sheets) <= MOST_SHEETS, name
    assert len(visited[1]["drills"][2]) == 1
