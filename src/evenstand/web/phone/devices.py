"""Phones that carry the book along: pairing one, seeing them all, letting one go."""

from datetime import UTC, datetime

from flask import Blueprint, abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.book.people.devices import LASTS, Device

from ..drills.drills import code as drawn
from ..site import here
from .files import bundle

blueprint = Blueprint("devices", __name__)
MINUTE = 60_000  # ms


@blueprint.get("/devices")
def index() -> ResponseReturnValue:
    """List the phones: all for those who keep the book, one's own for others."""
    return render_template(
        "devices.html", devices=_mine(), built=bundle() is not None, when=_when, code=None
    )


@blueprint.post("/devices")
def offer() -> ResponseReturnValue:
    """Show a code that pairs one phone, as a picture to point its camera at."""
    reader = here.reader()
    account = reader.id if reader and reader.id else None
    code = here.book().devices.offer(account=account, who=here.who() or here.book().who)
    page = url_for("phone_files.install")
    links = [
        address.rstrip("/") + page + "#" + code
        for address in here.settings().phone or (request.url_root,)
    ]
    return render_template(
        "devices.html",
        devices=_mine(),
        built=bundle() is not None,
        when=_when,
        code=f"{code[:4]} {code[4:]}",
        links=[(link, drawn(link)) for link in links],
        minutes=LASTS // MINUTE,
    )


@blueprint.post("/devices/<device>/revoke")
def revoke(device: str) -> ResponseReturnValue:
    """Take a phone's key away: a lost phone hands nothing over any more, and gets nothing."""
    if device not in [each.id for each in _mine()]:
        abort(404)
    here.book().devices.revoke(device)
    return redirect(url_for("devices.index"), 303)


def _mine() -> list[Device]:
    reader = here.reader()
    if reader is None:
        return []
    return here.book().devices.all(account=None if reader.may("keeps") else reader.id)


def _when(ms: int) -> datetime:
    return datetime.fromtimestamp(ms / 1000, tz=UTC)
