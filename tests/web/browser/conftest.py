"""A real browser before the pages: what a person reads, types, taps and prints in it."""

import threading
from contextlib import contextmanager
from functools import partial
from itertools import count
from pathlib import Path
from random import Random

import pytest

from evenstand.book.opening import open_book
from evenstand.demo.book import fill

ROOT = Path(__file__).parents[3]
CHROMIUM = Path("/usr/bin/chromium")
AXE = ROOT / "node_modules/axe-core/axe.min.js"
SHOTS = ROOT / "build/screenshots"
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--disable-quic",
)
SIZES = {
    "phone": {"width": 390, "height": 844},
    "desk": {"width": 1280, "height": 800},
    "narrow": {"width": 320, "height": 640},  # WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels
}
NOW = 1_795_568_400_000  # ms: 2026-11-25
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
UNFOLD = "document.querySelectorAll('details').forEach(each => each.open = true)"
WIDTH = "document.documentElement.scrollWidth"
# WCAG 2.2, 2.5.5: what is pressed is 44 px; a link inside a sentence is none of these.
TOO_SMALL = """
[...document.querySelectorAll("button, select, textarea, summary, .button, label:has(> input),"
    + "input:not([type=checkbox], [type=radio], [type=hidden]),"
    + "nav a, .card[href], .spine a, .links a")]
  .filter(each => each.checkVisibility() && each.getBoundingClientRect().height < 44)
  .map(each => each.outerHTML.slice(0, 120))
"""
FAULTS = """
async (rules) => (await axe.run({runOnly: rules})).violations
  .map(each => each.id + ": " + each.nodes[0].html.slice(0, 200))
"""


# WCAG 2.2, 2.4.7 and 2.4.11: what has the focus shows it, and nothing hides it.
FOCUS = """
wanted => {
  const at = document.activeElement;
  if (at === document.body) return {wanted: false, unseen: false};
  const box = at.getBoundingClientRect(), look = getComputedStyle(at);
  const ring = look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2;
  const x = box.x + Math.min(box.width, 40) / 2, y = box.y + box.height / 2;
  const top = document.elementFromPoint(x, y);
  const open = top && (at.contains(top) || top.contains(at));
  const said = at.outerHTML.slice(0, 120);
  return {wanted: at === wanted, unseen: !(ring && open), ring, open, said};
}
"""


SHUT = "xpath=ancestor::details[not(@open)]/summary"


class Screen:
    """A page, and whoever looks at it in their language and points at what they mean."""

    def __init__(self, page, language):
        from evenstand.web.site.languages import looking_up

        self.page, self._look_up = page, looking_up(language)

    def words(self, text, **values):
        return self._look_up(text).format(**values)

    def sees(self, text, **values):
        self.page.get_by_text(self.words(text, **values)).first.wait_for()

    def fill(self, **texts):
        for name, text in texts.items():
            self.unfold(f"#f-{name}")
            self.page.fill(f"#f-{name}", text)

    def unfold(self, selector):
        """Open what a field is folded away in."""
        shut = self.page.locator(selector).locator(SHUT)
        if shut.count():
            self.tap(shut.first)

    def choose(self, selector, value):
        self.page.select_option(selector, value)

    def attach(self, selector, file):
        self.page.set_input_files(selector, file)

    def press(self, text, **values):
        named = self.words(text, **values)
        self.go(self.page.get_by_role("button", name=named, exact=True).first)

    def follow(self, text, **values):
        named = self.words(text, **values)
        self.go(self.page.get_by_role("link", name=named, exact=True).first)

    def go(self, target):
        """Press what leads to another page, and wait until that is here."""
        target.wait_for()
        self.page.evaluate("document.querySelector('main').dataset.left = ''")
        self.tap(target)
        self.page.locator("main:not([data-left])").wait_for()

    def tap(self, target):
        target.click()


class Keyboard(Screen):
    """The same without a mouse: Tab to it, see that it has the focus, press."""

    def fill(self, **texts):
        for name, text in texts.items():
            self.unfold(f"#f-{name}")
            self._to(self.page.locator(f"#f-{name}"))
            self.page.keyboard.press("Control+A")
            for i, line in enumerate(text.split("\n")):
                if i:
                    self.page.keyboard.press("Enter")
                self.page.keyboard.type(line)

    def choose(self, selector, value):
        self._to(self.page.locator(selector))
        for key in ["Home"] + 40 * ["ArrowDown"]:
            self.page.keyboard.press(key)
            if self.page.input_value(selector) == value:
                return
        pytest.fail(f"{selector} has no {value}")

    def attach(self, selector, file):
        with self.page.expect_file_chooser() as chooser:
            self._to(self.page.locator(selector))
            self.page.keyboard.press("Space")
        chooser.value.set_files(file)

    def tap(self, target):
        self._to(target)
        self.page.keyboard.press("Enter")

    def _to(self, target):
        wanted = target.element_handle()
        for _ in range(200):
            self.page.keyboard.press("Tab")
            at = self.page.evaluate(FOCUS, wanted)
            assert not at["unseen"], at
            if at["wanted"]:
                return
        pytest.fail(f"Tab never comes to {target}")


class Inspection:
    """What is wrong with pages: for those who cannot see, on narrow screens, under gloves."""

    def __init__(self):
        self.faults = {}
        self._axe = AXE.read_text(encoding="utf-8") if AXE.exists() else ""

    def __call__(self, page, name):
        found = self.cut_off(page) + page.evaluate(TOO_SMALL)
        self.keep(name, [*found, *self._told_by_axe(page)])

    def keep(self, name, found):
        if found:
            self.faults[name] = found

    def cut_off(self, page):
        """Say how wide a page is, all of it unfolded, where that is more than 320 px."""
        page.evaluate(UNFOLD)
        size = page.viewport_size
        page.set_viewport_size(SIZES["narrow"])
        width = page.evaluate(WIDTH)
        page.set_viewport_size(size)
        return [f"{width} px wide"] if width > SIZES["narrow"]["width"] else []

    def _told_by_axe(self, page):
        if not self._axe:
            return
        if not page.evaluate("'axe' in window"):
            page.evaluate(self._axe)
        yield from page.evaluate(FAULTS, RULES)
        page.emulate_media(color_scheme="dark")
        yield from (f"in the dark, {each}" for each in page.evaluate(FAULTS, ["wcag2aa"]))
        page.emulate_media(color_scheme="light")


@pytest.fixture(scope="module")
def chromium(playwright):
    if not CHROMIUM.exists():
        pytest.skip("needs Chromium: install the package chromium")
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
    yield browser
    browser.close()


@contextmanager
def _answering(app):
    """Put an app behind a real server; gives its address, and ends it in its own thread."""
    waitress = pytest.importorskip("waitress.server")
    from waitress import wasyncore

    server = waitress.create_server(app, host="127.0.0.1", port=0)
    running = threading.Thread(target=server.run, daemon=True)
    running.start()
    yield f"http://127.0.0.1:{server.effective_port}"
    server.trigger.pull_trigger(partial(wasyncore.close_all, server._map))
    running.join(timeout=5)


@pytest.fixture
def address(client):
    """The app of an empty book."""
    with _answering(client.application) as found:
        yield found


@pytest.fixture(scope="session")
def sizes():
    return SIZES


@pytest.fixture
def keyboard():
    return Keyboard


@pytest.fixture
def opened(chromium, address):
    """Open a page, as ``opened("phone", "en")``; what goes wrong in it fails the test."""
    contexts, faults = [], []

    def screen(size="phone", language="en", *, hands=Screen, **options):
        options = {"locale": {"en": "en-US", "es": "es-MX"}[language]} | options
        context = chromium.new_context(viewport=SIZES[size], base_url=address, **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda said: faults.append(said.text) if _is_fault(said) else None)
        return hands(page, language)

    yield screen
    for context in contexts:
        context.close()
    assert faults == []


def _is_fault(said):
    """A refused form is told by its code, which is no fault."""
    return said.type == "error" and not any(code in said.text for code in ("409", "422"))


@pytest.fixture(scope="module")
def inspect():
    return Inspection()


@pytest.fixture(scope="module")
def demo_app():
    """The pages of the invented book, with its clock and its luck standing still."""
    pytest.importorskip("flask", reason="the pages need Flask")
    from evenstand.web.run.app import create_app
    from evenstand.web.site.settings import Settings

    minutes = count(NOW - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        yield create_app(book, settings=Settings(invented=True))


@pytest.fixture(scope="module")
def demo_address(demo_app):
    with _answering(demo_app) as found:
        yield found


@pytest.fixture(scope="module")
def shots():
    """Where pictures of the pages lie afterwards, to be looked at."""
    SHOTS.mkdir(parents=True, exist_ok=True)
    return SHOTS
