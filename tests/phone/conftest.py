"""A real office, a real browser at the size of a phone, and the way between them cut for real."""

import contextlib
import os
import re
import runpy
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import time
from hashlib import sha256
from pathlib import Path
from urllib.error import URLError
from urllib.request import Request, urlopen

import pytest

from evenstand.book.opening import open_book

ROOT = Path(__file__).parents[2]
CHROMIUM = Path("/usr/bin/chromium")
OFFLINE = ROOT / "src/evenstand/web/offline"
BUILT = ROOT / "build/phone-tested"
KEPT = 4  # builds
SOURCES = ("phone", "tools/phone", "src/evenstand", "requirements/phone.txt", "package-lock.json")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--disable-quic",
)
SIZE = {"width": 390, "height": 844}
BETWEEN = runpy.run_path(str(Path(__file__).parent / "between.py"))
STEPS = runpy.run_path(str(Path(__file__).parent / "steps.py"))
PATIENCE = 40_000  # ms: a boot of Python on a busy machine


# The program, with its phone's part in a folder of the test.
SERVE = """
import sys
from pathlib import Path
from evenstand.__main__ import main
from evenstand.web.phone import files as phone_files
phone_files.FOLDER = Path(sys.argv.pop(1))
main()
"""


def _hash_of_sources():
    hashed = sha256()
    for source in SOURCES:
        place = ROOT / source
        for path in sorted(place.rglob("*")) if place.is_dir() else [place]:
            if path.is_file() and OFFLINE not in path.parents and "__pycache__" not in path.parts:
                hashed.update(path.relative_to(ROOT).as_posix().encode() + path.read_bytes())
    return hashed.hexdigest()


@pytest.fixture(scope="session")
def bundle(built_once):
    """What phones load, built anew where its sources changed."""
    if not (shutil.which("node") and shutil.which("npm")):
        pytest.skip("Node.js not found: the tests of the phone were skipped")
    built = BUILT / _hash_of_sources()[:12]
    with built_once(BUILT):
        if not (built / "assets.json").is_file():
            _build(built)
    return built


def _build(built):
    needed = ["make", "-s", "node_modules/.package-lock.json", "build/phone/stamp"]
    beside = Path(tempfile.mkdtemp(dir=ROOT / "build"))
    build = ["node", "tools/phone/bundle.mjs", "build/phone/site", str(beside)]
    for command in (needed, build):
        done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
    shutil.rmtree(built, ignore_errors=True)
    beside.rename(built)
    folders = [each for each in BUILT.iterdir() if each.is_dir()]
    for old in sorted(folders, key=lambda each: each.stat().st_mtime)[:-KEPT]:
        shutil.rmtree(old, ignore_errors=True)


def free_port():
    """A port that nobody has, and that no system gives out while its office is stopped.

    Those begin at 32768; each process of tests looks among ten of its own.
    """
    first = 20_000 + 10 * (os.getpid() % 1200)
    for port in range(first, first + 10):
        with socket.socket() as probe, contextlib.suppress(OSError):
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind(("127.0.0.1", port))
            return port
    raise OSError(f"no port is free from {first} on")


class Office:
    """`evenstand serve` in a process of its own, over a book in a folder of the test."""

    env = None  # that of the tests

    def __init__(self, folder, bundle, port):
        self.book, self.bundle = folder / "office.evenstand", bundle
        self.port = port
        self.address = f"http://localhost:{self.port}"
        self.running = None

    def program(self):
        return [sys.executable, "-c", SERVE, str(self.bundle)]

    def start(self):
        command = [*self.program(), "serve", "--no-browser"]
        command += ["--book", str(self.book), "--port", str(self.port)]
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        self.running = subprocess.Popen(command, cwd=self.book.parent, env=self.env, **quiet)
        for _ in range(1200):
            with contextlib.suppress(URLError, OSError), urlopen(self.address + "/settings"):
                return
            assert self.running.poll() is None
            time.sleep(0.05)
        self.stop()
        raise TimeoutError(self.address)

    def stop(self):
        if self.running:
            self.running.kill()
            self.running.wait()
        self.running = None

    def code(self):
        """Have a code shown that pairs a phone."""
        with urlopen(Request(self.address + "/devices", method="POST")) as answer:
            page = answer.read().decode()
        return re.search(r'pairing">([^<]+)<', page)[1].replace(" ", "")

    def entries(self):
        """Every entry of the office, by its id."""
        with open_book(self.book, device="reader") as book, book.all_entries() as found:
            return {entry.id: entry for entry in found}

    def back_up(self, copy):
        with open_book(self.book, device="reader") as book:
            book.backup(copy)

    def may_only(self, role):
        """Let the phones write as somebody of this role."""
        with sqlite3.connect(self.book) as tables:
            tables.execute("UPDATE device SET role = ?", (role,))

    def revoke(self):
        with open_book(self.book, device="reader") as book:
            for each in book.devices.all():
                book.devices.revoke(each.id)


def family(pid):
    """A process and all that came from it."""
    listing = subprocess.run(
        ["ps", "-eo", "pid=,ppid="], capture_output=True, text=True, check=True
    )
    pairs = [tuple(map(int, line.split())) for line in listing.stdout.splitlines()]
    found, todo = [], [pid]
    while todo:
        found.append(todo.pop())
        todo += [child for child, parent in pairs if parent == found[-1]]
    return found


class Carried:
    """A phone: a browser with a profile of its own, which outlives it."""

    def __init__(self, playwright, folder, address, **options):
        self.playwright, self.folder, self.address = playwright, folder, address
        self.options, self.context = options, None

    def open(self):
        """Open the browser; gives a page."""
        self.context = self.playwright.chromium.launch_persistent_context(
            self.folder,
            executable_path=CHROMIUM,
            args=list(QUIET),
            viewport=SIZE,
            base_url=self.address,
            locale="en-US",
            **self.options,
        )
        self.context.set_default_timeout(PATIENCE)
        return self.context.pages[0]

    def close(self):
        if self.context:
            self.context.close()
        self.context = None

    def kill(self):
        """End every process of the browser at once, as an empty battery does."""
        own = str(self.folder).encode()
        for each in Path("/proc").iterdir():
            with contextlib.suppress(OSError):
                if each.name.isdigit() and own in (each / "cmdline").read_bytes():
                    for pid in family(int(each.name)):
                        with contextlib.suppress(ProcessLookupError):
                            os.kill(pid, signal.SIGKILL)
        with contextlib.suppress(Exception):  # what it was told cannot reach it any more
            self.context.close()
        self.context = None
        for lock in self.folder.glob("Singleton*"):
            lock.unlink(missing_ok=True)

    def set_clock(self, page, ms):
        """Move the clock of the page's Python."""
        [python] = page.workers
        python.evaluate("ms => { const now = Date.now; Date.now = () => now() + ms; }", ms)

    def cut(self, off=True):
        self.context.set_offline(off)

    def install(self, page, code):
        page.goto(f"/phone/#{code}")
        page.get_by_role("button", name="Put the book on this phone").click()
        page.wait_for_url(self.address + "/")
        STEPS["ready"](page)


@pytest.fixture(scope="session")
def playwright(playwright):
    if not CHROMIUM.exists():
        pytest.skip("Chromium not found: the tests of the phone were skipped")
    return playwright


@pytest.fixture(scope="session")
def laid_by(playwright, bundle, tmp_path_factory):
    """An office's port, and a folder with its book and a phone that carries it, to be copied."""
    folder, port = tmp_path_factory.mktemp("laid-by"), free_port()
    office = Office(folder, bundle, port)
    phone = Carried(playwright, folder / "profile", office.address)
    try:
        office.start()
        phone.install(phone.open(), office.code())
    finally:
        phone.close()
        office.stop()
    return port, folder


@pytest.fixture
def office(bundle, laid_by, tmp_path):
    port, folder = laid_by
    for file in folder.glob("office.evenstand*"):
        shutil.copy(file, tmp_path)
    office = Office(tmp_path, bundle, port)
    office.start()
    yield office
    office.stop()


@pytest.fixture
def carried(playwright, office, tmp_path):
    """A phone that is not yet paired."""
    phone = Carried(playwright, tmp_path / "profile", office.address)
    yield phone
    phone.close()


@pytest.fixture
def paired(carried, laid_by):
    """A phone that carries the office's book; gives its open page."""
    shutil.copytree(laid_by[1] / "profile", carried.folder)
    page = carried.open()
    page.goto("/")
    STEPS["ready"](page)
    return page


@pytest.fixture
def between(carried, office):
    """A way to the office that can be bad, which the phone takes."""
    way = BETWEEN["Between"](office.port)
    carried.address = way.address
    yield way
    way.http.shutdown()
    way.http.server_close()


@pytest.fixture
def elsewhere():
    """Another site with a form; called with where the form leads, it gives its address."""
    site = BETWEEN["Elsewhere"]()
    yield site
    site.http.shutdown()
    site.http.server_close()


@pytest.fixture
def newer_bundle(office, tmp_path):
    """Let the office have a newer version for phones; gives a word that only its pages have."""

    def renew():
        word = BETWEEN["of_another_version"](office.bundle, tmp_path / "newer")
        office.stop()
        office.bundle = tmp_path / "newer"
        office.start()
        return word

    return renew


@pytest.fixture
def private(playwright, office):
    """A private window; gives its context."""
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
    context = browser.new_context(base_url=office.address, locale="en-US", viewport=SIZE)
    context.set_default_timeout(PATIENCE)
    yield context
    browser.close()
