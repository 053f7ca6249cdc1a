"""An office in a process of its own, which can be killed, stopped and talked to badly."""

import re
import subprocess
import sys
from urllib.parse import urlsplit

import pytest

START = "import sys; from evenstand.__main__ import main; sys.exit(main())"


class Office:
    """``evenstand serve`` on a book, at ``port``."""

    def __init__(self, where):
        run = [sys.executable, "-m", "evenstand", "serve", "--port", "0", "--no-browser"]
        self.process = subprocess.Popen(
            [*run, "--book", str(where)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        said = self.process.stdout.readline().decode()
        self.address = re.search(r"http://\S+", said)[0].rstrip("/")
        self.port = urlsplit(self.address).port

    def end(self):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()


@pytest.fixture
def office(tmp_path):
    """Start an office on a book of its own, as ``office()``."""
    pytest.importorskip("waitress", reason="needs waitress")
    offices = []

    def start(where=None):
        offices.append(Office(where or tmp_path / "book"))
        return offices[-1]

    yield start
    for each in offices:
        each.end()
