"""What holds for every test: no deadlines, no luck on a build machine, and the longest first."""

import os
import sys
from contextlib import contextmanager

import pytest
from hypothesis import HealthCheck, settings

from long import TIMES, TRIED

# The browser's Python is slow: there each property is tried a quarter as often as here.
settings.register_profile(
    "house",
    max_examples=25 if sys.platform == "emscripten" else 100,
    deadline=None,
    derandomize="CI" in os.environ,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("house")


# Folders whose tests wait for a browser or another Python, so that none is left alone at the end.
LONG = ("tests/pyodide", "tests/phone", "tests/web/browser", "tests/docs", "tests/fuzz")


def pytest_collection_modifyitems(items):
    """Begin with the folders that take longest; else the order stays."""

    def place(item):
        return next((i for i, each in enumerate(LONG) if item.nodeid.startswith(each)), len(LONG))

    items.sort(key=place)


def pytest_terminal_summary(terminalreporter):
    """Say after a long run what was tried, and how often."""
    if TIMES > 1:
        terminalreporter.section("tried")
        for what, number in sorted(TRIED.items()):
            terminalreporter.line(f"{number:>9,} {what}")


@pytest.fixture(scope="session")
def built_once():
    """Let one process at a time build what all share: ``with built_once(folder): …``."""
    fcntl = pytest.importorskip("fcntl", reason="needs locks of files")

    @contextmanager
    def build(folder):
        folder.mkdir(parents=True, exist_ok=True)
        with (folder / "lock").open("w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            yield

    return build


@pytest.fixture(scope="session")
def playwright():
    """What drives browsers: there can be one at a time, so that all tests of a process share it."""
    api = pytest.importorskip("playwright.sync_api", reason="needs playwright")
    with api.sync_playwright() as found:
        yield found


@pytest.fixture(scope="session")
def gathered():
    """Every sentence for translators, and the files that say it."""
    pytest.importorskip("babel", reason="needs Babel")
    from tools.words import messages

    return messages()
