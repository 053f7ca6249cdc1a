"""Answers of the pages over a book; as a program, of the requests it is given, in JSON.

The clock stands still and luck is drawn from each request, so that two runs may be compared.
"""

import json
import sys
from pathlib import Path
from random import Random

from evenstand.book.exchange import import_file
from evenstand.book.opening import open_book
from evenstand.web.app import create_app
from evenstand.web.bridge import Bridge
from evenstand.web.settings import Settings

NOW = 1_795_568_400_000  # ms: 2026-11-25 01:00 UTC
FORM = {"Content-Type": "application/x-www-form-urlencoded"}


class Pages:
    """The pages of a book that was imported into memory."""

    def __init__(self, file):
        self.luck = Random(0)
        book = {"device": "phone", "who": "Tamarack Flats"}
        self.book = open_book(
            ":memory:", **book, clock=lambda: NOW, random=lambda n: self.luck.randbytes(n)
        )
        import_file(self.book, Path(file))
        self.app = create_app(self.book, settings=Settings(invented=True))
        self.bridge = Bridge(self.app)

    def ask(self, request):
        """Answer ``path``, or ``path form`` for a form that is sent."""
        self.luck.seed(request)
        path, _, form = request.partition(" ")
        if form:
            status, headers, body = self.bridge.handle("POST", path, FORM, form)
        else:
            status, headers, body = self.bridge.handle("GET", path)
        return [status, headers, body.decode("latin-1")]


def answers(file, requests):
    """Answer requests in their order, over a book of its own."""
    pages = Pages(file)
    try:
        return [pages.ask(request) for request in requests]
    finally:
        pages.book.close()


if __name__ == "__main__":
    folder = Path(sys.argv[1])
    asked = json.loads((folder / "requests.json").read_text(encoding="utf-8"))
    sys.stdout.write(json.dumps(answers(folder / "book.zip", asked)) + "\n")
