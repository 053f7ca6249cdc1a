"""The guide is whole: it needs no network, its pictures are there, its words are the pages'."""

import importlib.util
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from urllib.parse import unquote

import pytest

ROOT = Path(__file__).parents[2]
DOCS, GUIDE = ROOT / "docs", ROOT / "docs/guide"
PICTURES = DOCS / "pictures"
MOST = 60 * 1024  # bytes of a picture
STEPS = ("drills", "seed", "mix", "boxes", "order", "set", "sow", "stand", "record")
PARTS = ("What you need", "Safety", "Steps", "What you get", "Troubleshooting")
SHEETS = {"field-day": "en", "dia-de-campo": "es"}
SEEN = {"light": ("index", "guide/set"), "dark": ("guide/accuracy", "guide/dia-de-campo")}
CHROMIUM = Path("/usr/bin/chromium")
QUIET = ("--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-sync")
AXE = ROOT / "node_modules/axe-core/axe.min.js"
RULES = "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']})"
PHONE = {"width": 390, "height": 844}
CATALOGUE = ROOT / "src/evenstand/web/words/es.po"
PICTURE = re.compile(r"!\[([^\]]*)\]\((?:\.\./)?pictures/([^)]+)\)")
BOLD = re.compile(r"\*\*([^*]+)\*\*")
# Said with weight, and no label of any page.
WEIGHTY = {
    "One thing to do next is at the top",
    "Numbers come with a range",
    "Odds in plain words",
    "When it can't tell, it says so",
    "Use your own units.",
    "Errors show next to the field",
    "Nothing is overwritten.",
    "The math is at the bottom",
    "one next thing to do",
    "Drive wheel.",
    "Check for damage.",
    "Pure live seed",
    "Treated seed",
    "Back up.",
    "Export.",
    "Import.",
    "Swap with others.",
    "Go back to a copy.",
    "Choose how it reads.",
    "Where it's overconfident.",
}


class Links(HTMLParser):
    """What a built page loads, and where it leads."""

    def __init__(self, text):
        super().__init__()
        self.loads, self.leads, self.ids = [], [], set()
        self.feed(text)

    def handle_starttag(self, name, attributes):
        tag = {key: value or "" for key, value in attributes}
        self.ids |= {tag["id"]} if "id" in tag else set()
        if name == "a" and "href" in tag:
            self.leads.append(tag["href"])
        elif name in ("script", "img", "iframe", "source") and "src" in tag:
            self.loads.append(tag["src"])
        elif name == "link" and tag.get("rel") not in ("canonical", "prev", "next"):
            self.loads.append(tag["href"])


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The guide as mkdocs builds it, with every warning an error."""
    pytest.importorskip("mkdocs", reason="needs mkdocs-material")
    folder = tmp_path_factory.mktemp("guide")
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--quiet", "--strict", "--site-dir", folder],
        cwd=ROOT,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stdout
    return folder


@pytest.fixture(scope="module")
def built(site):
    """Every page that was built, as its links."""
    pages = {path: Links(path.read_text(encoding="utf-8")) for path in site.rglob("*.html")}
    assert len(pages) > 20
    return {path: page for path, page in pages.items() if path.name != "404.html"}


def test_no_page_loads_anything_from_another_site(site, built):
    for path, page in built.items():
        assert [each for each in page.loads if re.match(r"(https?:)?//", each)] == [], path
    for sheet in site.rglob("*.css"):
        assert not re.search(r"(@import|url\()\s*[\"']?(https?:)?//", sheet.read_text()), sheet


def test_every_link_of_every_built_page_leads_somewhere(built):
    for path, page in built.items():
        for link in page.leads + page.loads:
            if re.match(r"[a-z]+:", link) or link in ("", "."):
                continue
            where, _, part = unquote(link).partition("#")
            target = (path.parent / where).resolve() if where else path
            assert target.exists(), f"{path.name}: {link}"
            if part and target in built:
                assert part in built[target].ids, f"{path.name}: {link}"


def test_a_link_that_leads_nowhere_is_seen():
    page = Links('<a href="x.html#y">a</a><img src="https://e.example/p"><h2 id="y">b</h2>')
    assert (page.leads, page.loads, page.ids) == (["x.html#y"], ["https://e.example/p"], {"y"})


def named():
    """Every picture a page of the documents shows, with what it says to who cannot see it."""
    for page in DOCS.rglob("*.md"):
        for words, name in PICTURE.findall(page.read_text(encoding="utf-8")):
            yield page.name, words, name


def test_every_picture_that_is_named_is_there_and_every_one_there_is_named():
    kept = {path.name for path in PICTURES.iterdir()}
    assert {name for _, _, name in named()} == kept
    for page, words, _ in named():
        assert len(words) > 20, f"{page}: say what the picture shows"


def test_every_picture_is_one_the_tool_takes_and_is_light():
    pytest.importorskip("playwright", reason="needs playwright")
    found = importlib.util.spec_from_file_location("pictures", ROOT / "tools/guide_pictures.py")
    tool = importlib.util.module_from_spec(found)
    sys.modules["pictures"] = tool
    found.loader.exec_module(tool)
    assert {f"{each.name}.webp" for each in tool.PICTURES} == {
        path.name for path in PICTURES.iterdir()
    }
    for path in PICTURES.iterdir():
        assert path.read_bytes()[8:12] == b"WEBP"
        assert path.stat().st_size <= MOST, path.name


@pytest.mark.parametrize("step", STEPS)
def test_the_page_of_a_step_answers_what_a_reader_asks(step):
    text = (GUIDE / f"{step}.md").read_text(encoding="utf-8")
    assert re.match(r"# .+\n\n\*.+\?\*", text), "a title, and the question under it"
    assert [part for part in PARTS if f"\n## {part}\n" not in text] == []


def test_every_step_of_a_job_has_its_page():
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.web.run import steps

    assert {each.key for each in steps.STEPS} == set(STEPS) - {"drills", "seed"}


def labels():
    """Every sentence of the program, English → Spanish."""
    pofile = pytest.importorskip("babel.messages.pofile", reason="needs Babel")
    with CATALOGUE.open("rb") as file:
        return {each.id: each.string for each in pofile.read_po(file) if each.id}


def test_what_the_guide_calls_by_name_is_called_so_on_a_page():
    known = set(labels()) | WEIGHTY
    for page in [DOCS / "index.md", *GUIDE.glob("*.md")]:
        if page.stem in SHEETS:
            continue
        said = {" ".join(each.split()) for each in BOLD.findall(page.read_text(encoding="utf-8"))}
        assert sorted(said - known) == [], page.name


def test_both_sheets_say_the_same():
    texts = [(GUIDE / f"{name}.md").read_text(encoding="utf-8") for name in SHEETS]
    for sign in (r"^\d\. ", r"^- ", r"^## ", r"^\| \d", r"32,670"):
        first, second = (len(re.findall(sign, text, re.MULTILINE)) for text in texts)
        assert first == second > 0, sign


def test_the_pencil_of_the_sheet_gives_the_rate_of_the_program():
    """README: 8 oz from 4 rows 7.5 in apart, 18 1/3 turns of 95 in: 60 lb/ac."""
    text = (GUIDE / "field-day.md").read_text(encoding="utf-8")
    number = float(re.search(r"lb/ac = ([\d,]+) ×", text)[1].replace(",", ""))
    assert number * 8 / ((18 + 1 / 3) * 95 / 12 * 4 * 7.5) == pytest.approx(60, abs=0.1)
    assert number == 43_560 / 16 * 12  # ft² of an acre, oz of a pound, in of a foot


@pytest.fixture(scope="module")
def browser(playwright):
    if not CHROMIUM.exists():
        pytest.skip("needs Chromium: install the package chromium")
    opened = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
    yield opened
    opened.close()


@pytest.mark.parametrize("name", SHEETS)
def test_the_sheet_for_a_field_day_is_one_sheet(site, browser, name):
    pypdf = pytest.importorskip("pypdf", reason="needs pypdf")
    page = browser.new_page()
    page.goto((site / f"guide/{name}.html").as_uri())
    assert page.evaluate("document.querySelector('.sheet-page').lang || 'en'") == SHEETS[name]
    for paper in ("Letter", "A4"):
        printed = pypdf.PdfReader(BytesIO(page.pdf(format=paper)))
        assert len(printed.pages) == 1, paper
        assert "32,670" in printed.pages[0].extract_text()


@pytest.mark.parametrize("scheme", SEEN)
def test_axe_finds_nothing_in_the_guide(site, browser, scheme):
    if not AXE.exists():
        pytest.skip("needs axe-core: make pyodide installs it")
    page = browser.new_page(viewport=PHONE, color_scheme=scheme)
    for name in SEEN[scheme]:
        page.goto((site / f"{name}.html").as_uri())
        page.add_script_tag(path=AXE)
        assert [each["id"] for each in page.evaluate(RULES)["violations"]] == [], name


def test_no_page_of_the_guide_is_wider_than_a_phone(built, browser):
    page, wide = browser.new_page(viewport=PHONE), {}
    for path in built:
        page.goto(path.as_uri())
        wide[path.stem] = page.evaluate("document.documentElement.scrollWidth")
    assert {name: width for name, width in wide.items() if width > PHONE["width"]} == {}


def test_how_well_it_holds_repeats_the_tables_of_the_method():
    method = (DOCS / "method.md").read_text(encoding="utf-8")
    page = (GUIDE / "accuracy.md").read_text(encoding="utf-8")
    rows = [line for line in page.splitlines() if re.match(r"\| (?!-)", line)]
    numbers = {number for row in rows for number in re.findall(r"\d+\.\d+", row)}
    assert len(numbers) > 25
    assert sorted(number for number in numbers if number not in method) == []
