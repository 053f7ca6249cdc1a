"""What the pages write into the security log: who signs in, and what opens the book or closes it.

A name that was typed to sign in is written where an account has it; anything else may be a
password in the wrong field.
"""

from collections.abc import Mapping
from types import MappingProxyType

from flask import Flask, Response, g, request

from evenstand.book.errors import BookError
from evenstand.book.people import security_log

from . import here

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
        more = {name: request.form[name] for name in ("role",) if name in request.form}
        security_log.write(
            event,
            (request.view_args or {}) | more | g.get("watched", {}),
            who=_who(),
            where=request.remote_addr or "",
            answer=response.status_code,
        )
    return response


def _who() -> str:
    """Return the account that asks, or the one that it asks to sign in by."""
    if (person := here.reader()) and person.name:
        return person.name
    try:
        return here.book().people.find(request.form.get("name", "")).name
    except BookError:
        return ""
