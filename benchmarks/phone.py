"""The phone's part in Chromium, slowed 1, 4 and 6 times: bytes, starts, clicks, memory.

A browser's own throttle does not reach workers, so that the whole browser is stopped and let go
on, a fortieth of a second at a time. Each time also stands as a ratio to an empty page of the same
shape in the same run: painted, one worker started that answers, one fragment fetched and swapped.
Needs `make phone`, Chromium and playwright.
"""

import os
import re
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from statistics import median
from typing import Any
from urllib.request import Request, urlopen

from pages import fill  # beside this file

from evenstand.book.opening import open_book
from evenstand.web.phone.files import FOLDER, bundle

CHROMIUM = "/usr/bin/chromium"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync"]
SLOWER = (1, 4, 6)
RUNS, CLICKS = 5, 4
GROWTH = (0, 2_000, 20_000)
PERIOD = 0.025  # s
PATIENCE = 120_000  # ms
STATIC = FOLDER.parent / "static"
WATCH = """
new MutationObserver((_, watch) => {
  if (!document.documentElement?.hasAttribute("data-answers")) return;
  window.answered = performance.now();
  watch.disconnect();
}).observe(document, {subtree: true, childList: true, attributes: true});
"""
PAINT = "() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime"
# Whether Python's memory is kept, from which the next starts go on.
KEPT = """async () => (await (await caches.open("evenstand-memory")).keys()).length > 0"""
# From pressing until another heading, or the number of the newest catch, stands there.
SWAP = """([press, shown]) => new Promise((resolve) => {
  const text = () => document.querySelector(shown)?.textContent;
  const [before, start] = [text(), performance.now()];
  const watch = new MutationObserver(() => {
    if (text() === before || text() === undefined) return;
    watch.disconnect();
    requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - start)));
  });
  watch.observe(document, {subtree: true, childList: true, characterData: true});
  document.querySelector(press).click();
})"""
EMPTY = """<!doctype html><title>Empty</title><link rel="stylesheet" href="notebook.css"><body>
<main><h1>Jobs</h1><p>Nothing yet.</p><button>Go</button></main><script src="empty.js"></script>"""
SCRIPT = """
document.onclick = async () => {
  const found = await fetch("part" + Math.random());
  document.querySelector("main").outerHTML = await found.text();
};
const worker = new Worker("worker.js");
worker.onmessage = () => document.documentElement.setAttribute("data-answers", "");
"""


class Empty(BaseHTTPRequestHandler):
    """A page of the same shape with nothing behind it."""

    def do_GET(self) -> None:
        name = self.path.lstrip("/")
        if name == "notebook.css":
            body, kind = (STATIC / name).read_bytes(), "text/css"
        elif name == "empty.js":
            body, kind = SCRIPT.encode(), "text/javascript"
        elif name == "worker.js":
            body, kind = b"postMessage(1)", "text/javascript"
        elif name.startswith("part"):
            body, kind = f"<main><h1>{name}</h1><button>Go</button></main>".encode(), "text/html"
        else:
            body, kind = EMPTY.encode(), "text/html"
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_told: object) -> None:
        """Say nothing."""


def family(mark: str) -> list[int]:
    """Return the processes of the browser whose profile is named so, and those they began."""
    parents: dict[int, int] = {}
    found: set[int] = set()
    for each in Path("/proc").iterdir():
        if each.name.isdigit():
            with suppress(OSError):
                if mark.encode() in (each / "cmdline").read_bytes():
                    found.add(int(each.name))
                parents[int(each.name)] = int(
                    (each / "stat").read_text().rsplit(")", 1)[1].split()[1]
                )
    while more := {pid for pid, parent in parents.items() if parent in found} - found:
        found |= more
    return sorted(found)


@contextmanager
def slowed(times: int, mark: str) -> Iterator[None]:
    """Stop the browser for all but one part of each period."""
    ended = threading.Event()

    def cycle() -> None:
        pids, looked = family(mark), time.monotonic()
        while not ended.is_set():
            if time.monotonic() - looked > 0.5:
                pids, looked = family(mark), time.monotonic()
            tell(pids, signal.SIGSTOP)
            time.sleep(PERIOD * (times - 1) / times)
            tell(pids, signal.SIGCONT)
            time.sleep(PERIOD / times)

    thread = threading.Thread(target=cycle)
    if times > 1:
        thread.start()
    try:
        yield
    finally:
        ended.set()
        if times > 1:
            thread.join()


def tell(pids: list[int], what: signal.Signals) -> None:
    """Send a signal to those that are still there."""
    for pid in pids:
        with suppress(ProcessLookupError):
            os.kill(pid, what)


def private(mark: str) -> float:
    """Return the memory that the browser has to itself. [MB]"""
    total = 0
    for pid in family(mark):
        with suppress(OSError):
            text = Path(f"/proc/{pid}/smaps_rollup").read_text()
            total += sum(
                int(kb) for kb in re.findall(r"^Private_\w+:\s+(\d+) kB", text, re.MULTILINE)
            )
    return total / 1000


class Browser:
    """Chromium at the size of a phone, with a profile that stays."""

    def __init__(self, playwright: Any, folder: Path) -> None:
        self.playwright, self.folder = playwright, folder

    @contextmanager
    def page(self, address: str, slower: int = 1) -> Iterator[Any]:
        """Open a page at an address in a new process; slowed from the first request on."""
        context = self.playwright.chromium.launch_persistent_context(
            self.folder,
            executable_path=CHROMIUM,
            args=FLAGS,
            viewport={"width": 390, "height": 844},
            locale="en-US",
        )
        context.set_default_timeout(PATIENCE)
        context.add_init_script(WATCH)
        page = context.pages[0]
        with slowed(slower, str(self.folder)):
            page.goto(address)
            page.wait_for_function("() => window.answered")
            yield page
        context.close()

    def memory(self) -> float:
        """Return what it holds now. [MB]"""
        return private(str(self.folder))


def start(browser: Browser, address: str, slower: int) -> tuple[float, float]:
    """Return paint and first answer of a new process, medians. [ms]"""
    paints, answers = [], []
    for _ in range(RUNS):
        with browser.page(address, slower) as page:
            paints.append(page.evaluate(PAINT))
            answers.append(page.evaluate("window.answered"))
    return median(paints), median(answers)


def clicks(page: Any, press: tuple[str, ...], shown: str) -> float:
    """Return the time from a click to what it shows, median. [ms]"""
    return median(page.evaluate(SWAP, [press[n % len(press)], shown]) for n in range(CLICKS))


def weighings(page: Any, job: str) -> float:
    """Return the time from a weighing sent to its verdict, median. [ms]"""
    page.goto(f"{job}/calibrate")
    page.wait_for_function("() => window.answered")
    times = []
    for n in range(7):
        page.fill("#f-setting", "33")
        page.fill("#f-turns", "20")
        page.fill("#f-rows_caught", "20")
        page.fill("#f-net", f"38.{n + 1}")
        times.append(page.evaluate(SWAP, ["#catching .go button", "#last"]))
    return median(times)


def show(what: str, times: float, empty: float | None = None) -> None:
    """Print a line of the table."""
    ratio = f" | {times / empty:.1f}" if empty else " |"
    print(f"| {what} | {times:,.0f} ms{ratio} |")


def wire() -> None:
    """Print what a first visit takes."""
    told = bundle()
    assert told is not None
    names = [each["address"] for each in told["assets"]] + ["phone/sw.js", "phone/assets.js"]
    for way in ("", ".gz", ".br"):
        total = 0
        for name in names:
            path = (STATIC if name.startswith("static/") else FOLDER) / name.split("/", 1)[1]
            packed = path.with_name(path.name + way)
            total += (packed if packed.is_file() else path).stat().st_size
        print(f"| first visit, {way.lstrip('.') or 'as it is'} | {total / 1e6:.2f} MB | |")


def grow(page: Any, entries: list[str]) -> None:
    """Put entries into the log of the phone."""
    for begin in range(0, len(entries), 2000):
        page.evaluate(
            """async (texts) => {
                const log = await import("/phone/log.js");
                const found = texts.map((text) => ({id: JSON.parse(text).id, text}));
                await log.append(found, {waiting: false});
            }""",
            entries[begin : begin + 2000],
        )


def catches(count: int) -> list[str]:
    """Return so many entries, most of them catches of jobs of a book."""
    with open_book(":memory:", device="shed") as book:
        fill(book, max(1, count // 21))
        with book.all_entries() as found:
            return [entry.text for entry in found][:count]


@contextmanager
def office(folder: Path) -> Iterator[str]:
    """Serve the demo book; gives its address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    command = [sys.executable, "-m", "evenstand", "serve", "--demo", "--no-browser"]
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "cwd": folder}
    running = subprocess.Popen([*command, "--port", str(port)], **quiet)  # type: ignore[call-overload]
    address = f"http://localhost:{port}"
    for _ in range(400):
        with suppress(OSError), urlopen(address):
            break
        time.sleep(0.05)
    yield address
    running.kill()
    running.wait()


def install(browser: Browser, address: str) -> float:
    """Pair; returns how long the first visit takes until Python answers on its page. [ms]"""
    with urlopen(Request(address + "/devices", method="POST")) as answer:
        code = re.search(r'pairing">([^<]+)<', answer.read().decode())
    assert code
    context = browser.playwright.chromium.launch_persistent_context(
        browser.folder, executable_path=CHROMIUM, args=FLAGS
    )
    context.set_default_timeout(PATIENCE)
    page = context.pages[0]
    page.goto(f"{address}/phone/#{code[1].replace(' ', '')}")
    begun = time.perf_counter()
    page.click("form[data-install] button")
    page.wait_for_url(address + "/")
    page.wait_for_function("() => document.documentElement.hasAttribute('data-answers')")
    taken = (time.perf_counter() - begun) * 1e3
    page.wait_for_function(KEPT)
    context.close()
    return taken


def measure(playwright: Any, folder: Path) -> None:
    """Print the table."""
    bare = ThreadingHTTPServer(("127.0.0.1", 0), Empty)
    threading.Thread(target=bare.serve_forever, daemon=True).start()
    nothing = f"http://127.0.0.1:{bare.server_port}/"
    empty = Browser(playwright, folder / "empty")
    phones = {slower: Browser(playwright, folder / f"phone-{slower}") for slower in SLOWER}
    print("| what | median | ÷ empty page |\n|---|---|---|")
    wire()
    with office(folder) as address:
        times = [install(phone, address) for phone in phones.values()]
    show("first visit: pair, fetch, take in the book, first page", median(times))
    for slower, phone in phones.items():
        compare(phone, address, slower=slower, empty=empty, nothing=nothing)
    bare.shutdown()
    growth(phones[1], address)


def compare(phone: Browser, address: str, *, slower: int, empty: Browser, nothing: str) -> None:
    """Print what a phone of some speed takes, beside an empty page on the same."""
    of_nothing = start(empty, nothing, slower)
    with empty.page(nothing, slower) as page:
        swap = clicks(page, ("button",), "h1")
        held = empty.memory()
    painted, answered = start(phone, address + "/", slower)
    show(f"{slower}×: start to the last page painted", painted, of_nothing[0])
    show(f"{slower}×: start to the first answer", answered, of_nothing[1])
    with phone.page(address + "/", slower) as page:
        nav = ("nav a:nth-of-type(2)", "nav a:nth-of-type(1)")
        show(f"{slower}×: click to the next page", clicks(page, nav, "h1"), swap)
        times = weighings(page, open_job(page, address))
        show(f"{slower}×: weighing entered to its verdict", times, swap)
        if slower == 1:
            print(f"| memory beside an empty page | {phone.memory() - held:,.0f} MB | |")


def open_job(page: Any, address: str) -> str:
    """Return the address of the job that is open at its calibration, with the drill of 20 rows."""
    return address + str(page.get_attribute("main a:has-text('Alder Bench, fall cover')", "href"))


def growth(phone: Browser, address: str) -> None:
    """Print what more entries in the phone's log make of a start and of a verdict."""
    with phone.page(address + "/") as page:
        job, done = open_job(page, address), 0
    for count in GROWTH:
        with phone.page(address + "/") as page:
            grow(page, catches(count)[done:])
        done = count
        answered = start(phone, address + "/", 1)[1]
        show(f"{count:,} entries more: start to the first answer", answered)
        with phone.page(address + "/") as page:
            show(f"{count:,} entries more: weighing to verdict", weighings(page, job))


def main() -> None:
    """Measure, where all that it takes is there."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        return print("phone.py: playwright is not there; passed over")
    if bundle() is None or not Path(CHROMIUM).exists():
        return print("phone.py: run make phone, and install Chromium; passed over")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        return measure(playwright, Path(folder))


if __name__ == "__main__":
    main()
