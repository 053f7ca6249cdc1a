"""The pages on a phone: a book in memory, put together from the entries that the phone keeps."""

import json
from collections.abc import Iterable
from datetime import date
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from flask import Flask
from jinja2 import ModuleLoader

from evenstand.book.log.entries import read
from evenstand.book.opening import open_book
from evenstand.book.people.people import Role
from evenstand.book.storage.store import MEMORY
from evenstand.engine.seed.tag import Month
from evenstand.tasks.record.frozen import freeze_old

from ..site import here
from ..site.settings import Settings
from .app import create_app
from .bridge import Answer, Bridge, Headers
from .steps import STEPS

Written = list[tuple[str, str]]
PAGES = Path(__file__).parents[1] / "pages"  # compiled with the bundle: a phone has no time for it


class Phone:
    """Answers the pages of one phone, and tells what each request has written.

    What it holds is lost with the page; the phone's own log, which is handed
    what was written before the answer is shown, is what lasts.

    Parameters
    ----------
    device : str
        The phone's name in stamps.
    who : str
        Who writes on it; empty where nobody was named.
    role : str
        What its person may do.
    cookies : str
        Cookies by name, as JSON.
    origin : str
        Where its pages seem to come from, such as ``https://farm.example``.
    root : str
        Path below which they lie.
    signs : str, optional
        Name of the account that it was paired for: it writes under no other.
    """

    def __init__(
        self,
        *,
        device: str,
        who: str,
        role: Role,
        cookies: str,
        origin: str,
        root: str,
        signs: str = "",
    ) -> None:
        self._book = open_book(MEMORY, device=device, who=who)
        host = origin.partition("://")[2]
        hosts = (host.partition(":")[0],)
        self._settings = Settings(on_phone=True, role=role, hosts=hosts, signs=signs)
        self._cookies: dict[str, str] = json.loads(cookies)
        self._bridge = Bridge(_app(), origin=origin, root=root, cookies=self._cookies)
        self._root, self._cursor = root.rstrip("/"), 0
        self._begun = role == "reads"  # one who only reads freezes nothing

    def take(self, texts: Iterable[str]) -> None:
        """Take in entries from the log, in any order, known ones too."""
        self._book.merge(read(text.encode()) for text in texts)
        self._cursor = self._book.cursor()

    def handle(  # noqa: PLR0917 - JavaScript calls it, which names no arguments
        self, method: str, url: str, headers: Any = None, body: Any = None
    ) -> tuple[int, Headers, bytes, Written, str | None]:
        """Answer a request.

        Returns
        -------
        tuple
            Status, headers, body; the entries that were written as (id, text);
            the cookies as JSON where they changed.
        """
        here.serve(_app(), self._book, self._settings)
        self._begin()
        before = dict(self._cookies)
        answer = self._bridge.handle(method, url, headers, body)
        cookies = json.dumps(self._cookies) if self._cookies != before else None
        return *answer, self._written(), cookies

    def _begin(self) -> None:
        """Freeze what was finished before this version, at the first request."""
        if not self._begun:
            self._begun, now = True, date.today()
            freeze_old(self._book, today=Month(now.year, now.month))

    def _written(self) -> Written:
        written, more = [], True
        while more:
            batch = self._book.written(since=self._cursor)
            written += [(entry.id, entry.text) for entry in batch.entries]
            self._cursor, more = batch.cursor, batch.more
        return written

    def not_kept(self, why: str) -> Answer:
        """Say that the phone could not keep what was sent, and why."""
        here.serve(_app(), self._book, self._settings)
        page = f"{self._root}/this-phone/not-kept"
        return self._bridge.handle("POST", page, None, why)


@cache
def _app() -> Flask:
    """Make the app; before each request it is told whose book it answers for."""
    with open_book(MEMORY, device="nobody") as book:
        app = create_app(book)
    if find_spec("evenstand.web.pages"):
        app.jinja_env.loader = ModuleLoader(PAGES)
    return app


def rehearse() -> None:
    """Go through the pages of a job of nobody, so that what each makes once is made.

    The memory that is kept for the next starts of a phone is as it is then.
    """
    known = {"device": "nobody", "who": "", "cookies": "{}", "origin": "http://localhost"}
    phone = Phone(**known, role="keeps", root="")
    form = [("Content-Type", "application/x-www-form-urlencoded")]
    _, headers, _, written, _ = phone.handle("POST", "/jobs/new", form, b"name=Nobody's")
    phone.take(text for _, text in written)
    job = dict(headers)["Location"]
    phone.handle("GET", "/")
    address = _app().url_map.bind("").build
    steps = (address(step.endpoint, {"job": job.rpartition("/")[2]}) for step in STEPS)
    for page in (job, *steps):
        phone.handle("GET", page)
