"""Take the guide's pictures from the pages of the demo book; `make pictures` runs it.

The clock stands still and luck is drawn from one seed, so that the same pages give the same
pictures. They are as a phone shows them, in light, and small enough to be loaded in a field.
"""

import base64
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from random import Random

from playwright.sync_api import Browser, Page, sync_playwright
from waitress.server import create_server

from evenstand.book.book import Book
from evenstand.book.opening import open_book
from evenstand.demo.book import fill
from evenstand.web.run.app import create_app
from evenstand.web.site.settings import Settings

FOLDER = Path(__file__).parents[1] / "docs/pictures"
MOST = 60 * 1024  # bytes of a picture
NOW = 1_795_568_400_000  # ms: 2026-11-25
CHROMIUM = Path("/usr/bin/chromium")
QUIET = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--font-render-hinting=none",
)
WIDTH, TALLEST, SHARPNESS = 390, 900, 2
AROUND = 8  # px of paper left around a part
STILL = """
document.querySelector(".invented")?.remove();
document.querySelector(".top nav")?.remove();
"""
# The lowest line, from the top on, that cuts through nothing one reads or presses, no heading off.
BETWEEN = """
([top, tall]) => {
  const whole = "h1, h2, h3, p, li, tr, dt, dd, svg, img, a, button, select, input, label";
  const boxes = [...document.querySelectorAll(whole)].map(each => {
    const box = each.getBoundingClientRect();
    return [box.top + scrollY + 1, box.bottom + scrollY + (each.matches("h2, h3") ? 40 : -1)];
  });
  for (let end = top + tall; end > top; end--)
    if (!boxes.some(([from, to]) => from < end && end < to)) return end - top;
  return tall;
}
"""


@dataclass(frozen=True)
class Picture:
    """A page, or one part of it, as the guide shows it.

    Parameters
    ----------
    name : str
        Of its file.
    address : str
        Where the page is; a name in braces stands for a thing of the demo book.
    part : str
        What of it is shown, as CSS names it; empty for the page from its top.
    tall : int
        How much of it, at most. [px]
    """

    name: str
    address: str
    part: str = ""
    tall: int = TALLEST


PICTURES = (
    Picture("jobs", "/"),
    Picture("job", "/jobs/{fall cover}", tall=760),
    Picture("drill", "/drills/{Heron}", tall=700),
    Picture("label", "/drills/{Heron}/label?at=https://drills.example", part=".label"),
    Picture("lot", "/seed/{C-26}", tall=860),
    Picture("count", "/counts/{count of O-25}", tall=700),
    Picture("mix", "/jobs/{fall cover}/mix", part="main .columns"),
    Picture("boxes", "/jobs/{fall cover}/boxes", tall=860),
    Picture("order", "/jobs/{fall cover}/order", tall=860),
    Picture("set", "/jobs/{fall cover}/calibrate?box=grain", tall=860),
    Picture("turns", "/jobs/{fall cover}/calibrate?box=grain", part="section.catch", tall=520),
    Picture("curve", "/jobs/{fall cover}/calibrate?box=grain", part="figure:has(figcaption)"),
    Picture("sow", "/jobs/{spring oats}/seeding", tall=860),
    Picture("course", "/jobs/{spring oats}/seeding", part="section:has(#course)", tall=560),
    Picture("counting", "/jobs/{fall cover}/stand-count", tall=860),
    Picture("stand", "/jobs/{spring oats}/stand-count", tall=560),
    Picture("record", "/jobs/{spring oats}/record", tall=860),
    Picture("card", "/drills/{Plover}/card", tall=650),
)


def things(book: Book) -> dict[str, str]:
    """Return the addresses' names for things of the demo book: name → id."""
    named = {
        thing.body.name.rpartition(", ")[2]: thing.id
        for kind in ("drill", "lot", "job")
        for thing in book.things(kind)
    }
    lots = {thing.id: thing.body.name for thing in book.things("lot")}
    counts = {f"count of {lots[each.body.lot]}": each.id for each in book.things("seed count")}
    return named | counts


@contextmanager
def served() -> Iterator[tuple[str, dict[str, str]]]:
    """Serve a demo book; gives its address and the names of its things."""
    minutes = count(NOW - 24 * 3_600_000, 60_000)
    clock = {"clock": lambda: next(minutes), "random": Random(1).randbytes}
    with open_book(":memory:", device="shed", who="Tamarack Flats", **clock) as book:
        fill(book)
        server = create_server(
            create_app(book, settings=Settings(invented=True)),
            host="127.0.0.1",
            port=0,
            threads=len(PICTURES),
        )
        running = threading.Thread(target=server.run, daemon=True)
        running.start()
        yield f"http://127.0.0.1:{server.effective_port}", things(book)
        server.close()
        running.join(timeout=5)


def take(page: Page, picture: Picture) -> bytes:
    """Return what a page looks like, as WebP."""
    page.evaluate(STILL)
    clip = _clip(page, picture) | {"scale": 1}
    session = page.context.new_cdp_session(page)
    asked = {"format": "webp", "clip": clip, "captureBeyondViewport": True}
    for quality in range(80, 20, -10):
        shown = session.send("Page.captureScreenshot", asked | {"quality": quality})
        if len(found := base64.b64decode(shown["data"])) <= MOST:
            return found
    raise ValueError(f"{picture.name} is larger than {MOST} bytes: show less of it")


def _clip(page: Page, picture: Picture) -> dict[str, float]:
    top, height = 0.0, float(page.evaluate("document.body.scrollHeight"))
    if picture.part:
        box = page.locator(picture.part).first.bounding_box()
        if box is None:
            raise ValueError(f"{picture.name}: {picture.part} is not shown at {picture.address}")
        top, height = max(box["y"] - AROUND, 0.0), box["height"] + 2 * AROUND
    if height > picture.tall:
        height = page.evaluate(BETWEEN, [top, picture.tall])
    return {"x": 0, "y": top, "width": WIDTH, "height": height}


def main() -> None:
    """Write every picture anew, and take away those that are none any more."""
    FOLDER.mkdir(exist_ok=True)
    with served() as (base, names), sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        page = _phone(browser, base)
        for picture in PICTURES:
            page.goto(picture.address.format_map(names))
            (FOLDER / f"{picture.name}.webp").write_bytes(take(page, picture))
        browser.close()
    known = {f"{picture.name}.webp" for picture in PICTURES}
    for path in FOLDER.iterdir():
        if path.name not in known:
            path.unlink()


def _phone(browser: Browser, base: str) -> Page:
    context = browser.new_context(
        viewport={"width": WIDTH, "height": 844},
        device_scale_factor=SHARPNESS,
        base_url=base,
        locale="en-US",
        color_scheme="light",
        reduced_motion="reduce",
    )
    return context.new_page()


if __name__ == "__main__":
    main()
