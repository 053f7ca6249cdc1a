"""What is said of the rooms is true: what each is open with, and each module that a page names.

A room is a folder of ``engine``, ``book``, ``tasks`` or ``web``. The top of its ``__init__.py``
says what it is for, and in its last sentence which of its modules other rooms import.
"""

import importlib
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src/evenstand"
BASES = (ROOT, SOURCE, SOURCE / "web", ROOT / "docs")
FLOORS = {each.parent.name for each in SOURCE.glob("*/__init__.py")}
ROOMS = sorted(
    ".".join(each.parent.relative_to(SOURCE).parts) for each in SOURCE.glob("*/*/__init__.py")
)
OPEN = re.compile(r"^Open to other rooms: ([\w,\s]+)\.$", re.MULTILINE)
CODE = re.compile(r"`([^`\n]+)`")
MODULE = re.compile(r"[a-z_]+(?:\.\w+)+")
PLACE = re.compile(r"[\w.-]+(?:/[\w.-]+)*/[\w.-]*")


def said_to_be_open(room):
    """The modules that a room says others use."""
    about = importlib.import_module(f"evenstand.{room}").__doc__
    return set(re.split(r",\s+", OPEN.search(about)[1]))


def used_from_outside(graph, package):
    """The modules of a package that others import, by their names in it."""
    inside = graph.find_descendants(package)
    return {
        module.removeprefix(f"{package}.")
        for module in inside
        if graph.find_modules_that_directly_import(module) - inside
    }


@pytest.fixture(scope="module")
def graph():
    """Who imports whom, as the source says."""
    grimp = pytest.importorskip("grimp", reason="needs import-linter")
    return grimp.build_graph("evenstand", cache_dir=None)


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_names_what_others_import_of_it(graph, room):
    assert said_to_be_open(room) == used_from_outside(graph, f"evenstand.{room}")


def test_no_room_itself_is_imported(graph):
    """What lies in an ``__init__.py`` would be open and unnamed."""
    rooms = {f"evenstand.{room}" for room in ROOMS}
    assert {room for room in rooms if graph.find_modules_that_directly_import(room)} == set()


def test_imports_from_outside_are_seen():
    grimp = pytest.importorskip("grimp", reason="needs import-linter")
    graph = grimp.ImportGraph()
    for importer, imported in (
        ("a.room.x", "a.room.y"),
        ("a.room.x", "a.room.z"),
        ("b", "a.room.y"),
    ):
        graph.add_import(importer=importer, imported=imported)
    for package in ("a", "a.room"):
        graph.add_module(package)
    assert used_from_outside(graph, "a.room") == {"y"}


def test_the_map_has_every_room():
    text = (ROOT / "docs/architecture.md").read_text(encoding="utf-8")
    tables = re.findall(r"^\| `(\w+)\.` \| \|\n\|---\|---\|\n((?:\|.*\n)+)", text, re.MULTILINE)
    named = [
        f"{floor}.{room}"
        for floor, rows in tables
        for row in rows.splitlines()
        for room in CODE.findall(row.split("|")[1])
    ]
    assert sorted(named) == ROOMS


def pages_about_the_code():
    """CONTRIBUTING and the pages that the guide lists under it."""
    nav = (ROOT / "mkdocs.yml").read_text(encoding="utf-8").partition("  - How it is built:\n")[2]
    listed = re.findall(r"^      - .*: (\S+\.md)$", nav.partition("\n  - ")[0], re.MULTILINE)
    return [ROOT / "CONTRIBUTING.md", *(ROOT / "docs" / each for each in listed)]


def is_there(name):
    """Whether a dotted name is a module, or something in one."""
    module, _, last = f"evenstand.{name}".rpartition(".")
    try:
        importlib.import_module(f"{module}.{last}")
    except ModuleNotFoundError:
        return hasattr(importlib.import_module(module), last)
    return True


def not_there(text):
    """The modules and files that a page names, and that are not there."""
    for code in CODE.findall(text):
        if MODULE.fullmatch(code) and code.partition(".")[0] in FLOORS:
            try:
                found = is_there(code)
            except ModuleNotFoundError:
                found = False
        elif PLACE.fullmatch(code):
            found = any((base / code).exists() for base in BASES) or code.startswith(MADE)
        else:
            continue
        if not found:
            yield code


MADE = ("build/", ".venv/", "dist/", "web/offline/", "DIR/")  # by a command


@pytest.mark.parametrize("page", pages_about_the_code(), ids=lambda page: page.stem)
def test_what_a_page_names_is_there(page):
    assert list(not_there(page.read_text(encoding="utf-8"))) == []


def test_what_is_gone_is_seen():
    text = "`engine.catch.rate` `engine.catch.gone` `engine.left.rate` `web.site.here.style` "
    text += "`web.site.here.gone` `static/photo.js` `static/gone.js` `book.md` `Book.merge`"
    gone = ["engine.catch.gone", "engine.left.rate", "web.site.here.gone", "static/gone.js"]
    assert list(not_there(text)) == [*gone, "book.md"]
