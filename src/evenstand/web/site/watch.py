"""What is written down of who signs in, and of whatever opens the book to others or closes it.

One line of JSON for each, without a password, a code or a key: when, what, how it was answered
(the HTTP status), who, from which address. A name that was typed to sign in is written where an
account has it; anything else may be a password in the wrong field.
"""

import json
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType

from flask import Flask, Response, g, request

from evenstand.book.errors import BookError
from evenstand.book.storage.files import own

from . import here

LOG = logging.getLogger("evenstand.security")
END = ".security.log"  # beside the book
MOST_BYTES, OLDER = 1_000_000, 4  # of a file, and how many full ones are left
FORBIDDEN = 403
EVENTS: Mapping[str, str] = MappingProxyType(
    {
        "people.enter": "sign in",
        "people.leave": "sign out",
        "people.change_own": "change own password",
        "people.add": "add account",
        "people.change_role": "change role",
        "people.change_password": "change password",
        "people.remove": "remove account",
        "devices.offer": "show pairing code",
        "devices.revoke": "remove phone",
        "exchange.pair": "pair phone",
        "book.export": "export",
        "book.copy": "back up",
        "book.import_": "import",
        "api.export_book": "export",
        "api.import_book": "import",
    }
)


def watch(app: Flask) -> None:
    """Write down what an app answers to what is watched, and all that it forbids."""
    app.before_request(_who_asks)
    app.after_request(_written_down)


def add(**facts: str) -> None:
    """Say more of this request than its address does."""
    g.watched = g.get("watched", {}) | facts


@contextmanager
def written_beside(book: Path | None) -> Iterator[None]:
    """Write beside a book, for its owner alone, into a file that is begun anew when it is full."""
    if book is None:  # in memory alone
        yield
        return
    from logging.handlers import RotatingFileHandler  # which no phone carries

    where = book.with_name(book.name + END)
    own(where, create=True)
    handler = RotatingFileHandler(
        where, maxBytes=MOST_BYTES, backupCount=OLDER, encoding="utf-8", delay=True
    )
    handler.setFormatter(logging.Formatter("%(message)s"))
    LOG.setLevel(logging.INFO)
    LOG.propagate = False
    LOG.addHandler(handler)
    try:
        yield
    finally:
        LOG.removeHandler(handler)
        handler.close()


def _who_asks() -> None:
    """Look who it is before a session ends or another begins."""
    if request.endpoint in EVENTS:
        here.reader()


def _written_down(response: Response) -> Response:
    if here.settings().on_phone:
        return response
    event = EVENTS.get(request.endpoint or "")
    if event is None and response.status_code == FORBIDDEN:
        event = f"{request.method} {request.path}"
    if event:
        line = {
            "at": datetime.now(UTC).isoformat(timespec="seconds"),
            "event": event,
            "answer": response.status_code,
            "who": _who(),
            "from": request.remote_addr or "",
            **(request.view_args or {}),
            **{name: request.form[name] for name in ("role",) if name in request.form},
            **g.get("watched", {}),
        }
        LOG.info(json.dumps(line))
    return response


def _who() -> str:
    """Return the account that asks, or the one that it asks to sign in by."""
    if (person := here.reader()) and person.name:
        return person.name
    try:
        return here.book().people.find(request.form.get("name", "")).name
    except BookError:
        return ""
