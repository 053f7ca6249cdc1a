"""Answers of a phone's pages, the same file here and in what a phone loads.

In FOLDER it reads `asked.json`, the entries and the requests, and writes `told.json`. The clock
stands still and luck is drawn from each request.
"""

import json
import sys
from functools import partial
from pathlib import Path
from random import Random

from evenstand.web.run import on_phone as phone

NOW = 1_795_568_400_000  # ms: 2026-11-25 01:00 UTC
FORM = [["Content-Type", "application/x-www-form-urlencoded"]]
KNOWN = {"device": "phone-1", "who": "Wim", "role": "keeps", "cookies": "{}"}
PLACE = {"origin": "https://farm.example", "root": "/"}


class Pages:
    """The pages of a phone whose log holds these entries."""

    def __init__(self, entries):
        self.luck, opened = Random(0), phone.open_book
        clock = {"clock": lambda: NOW, "random": lambda n: self.luck.randbytes(n)}
        phone.open_book = partial(opened, **clock)
        try:
            self.phone = phone.Phone(**KNOWN, **PLACE)
        finally:
            phone.open_book = opened
        self.phone.take(entries)

    def ask(self, request):
        """Answer ``path``, or ``path form`` for a form that is sent."""
        self.luck.seed(request)
        path, _, form = request.partition(" ")
        how = ("POST", path, FORM, form) if form else ("GET", path)
        status, headers, body, written, cookies = self.phone.handle(*how)
        told = {name: value for name, value in headers if name not in ("ETag", "Date")}
        assert len(told) >= len(headers) - 2  # no name twice
        return [status, told, body.decode("latin-1"), written, cookies]


def answers(entries, requests):
    """Answer requests in their order."""
    pages = Pages(entries)
    return [pages.ask(request) for request in requests]


if sys.platform == "emscripten":
    shared = Path("/shared")
    asked = json.loads((shared / "asked.json").read_text(encoding="utf-8"))
    told = {"answers": answers(**asked), "modules": sorted(sys.modules)}
    (shared / "told.json").write_text(json.dumps(told), encoding="utf-8")
