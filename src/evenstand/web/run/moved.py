"""Addresses that pages once had: bookmarks, printed codes and forms sent there go on to theirs."""

from urllib.parse import quote

from flask import Blueprint, redirect, request
from flask.typing import ResponseReturnValue

MOVED = {"book": "settings", "set": "calibrate", "sow": "seeding", "stand": "stand-count"}
PERMANENTLY = 308  # a form is sent again to where it leads

blueprint = Blueprint("moved", __name__)


def lead(**named: str) -> ResponseReturnValue:
    """Lead to the page, whose address has another word now."""
    parts = request.path.split("/")
    at = 3 if "job" in named else 1
    path = "/".join(quote(part) for part in [*parts[:at], MOVED[parts[at]], *parts[at + 1 :]])
    asked = "?" + request.query_string.decode() if request.query_string else ""
    return redirect(request.script_root + path + asked, PERMANENTLY)


for rule in ("/book", "/jobs/<job>/set", "/jobs/<job>/sow", "/jobs/<job>/stand"):
    for below in ("", "/<path:below>"):
        blueprint.add_url_rule(rule + below, "lead", lead, methods=["GET", "POST"])
