"""What a phone loads so that it can go without a network, and the page that puts it there."""

import json
from functools import cache
from pathlib import Path
from typing import Any

from flask import Blueprint, Response, abort, render_template, request, send_file
from flask.typing import ResponseReturnValue

from ..site.security import POLICY

blueprint = Blueprint("phone_files", __name__)
FOLDER = Path(__file__).parents[1] / "offline"  # written by tools/phone/bundle.mjs
TYPES = {".mjs": "text/javascript", ".js": "text/javascript", ".wasm": "application/wasm"}
PACKED = {"br": ".br", "gzip": ".gz"}  # best first
COMPILES = "worker.js"  # the one script that may compile WebAssembly


@cache
def bundle() -> dict[str, Any] | None:
    """Return what the built files say of themselves; None where none were built."""
    told = FOLDER / "assets.json"
    return json.loads(told.read_text(encoding="utf-8")) if told.is_file() else None


def size() -> int:
    """Return what a phone loads the first time, as it is sent. [byte]"""
    assets = (bundle() or {"assets": []})["assets"]
    names = [each["address"].removeprefix("phone/") for each in assets]
    paths = [FOLDER / name for name in names if (FOLDER / name).is_file()]
    return sum(_smallest(path).stat().st_size for path in paths)


def _smallest(path: Path) -> Path:
    packed = [path.with_name(path.name + end) for end in PACKED.values()]
    return next((each for each in packed if each.is_file()), path)


@blueprint.get("/phone/")
def install() -> ResponseReturnValue:
    """Offer to put the book on this phone, with the code that stands behind the address."""
    return render_template("phone_install.html", built=bundle() is not None, size=size())


@blueprint.get("/sw.js")
def service_worker() -> ResponseReturnValue:
    """Send the service worker, which a browser looks at anew each time."""
    return _sent("sw.js")


@blueprint.get("/phone/<path:name>")
def file(name: str) -> ResponseReturnValue:
    """Send a built file, packed as the browser takes it."""
    return _sent(name)


def _sent(name: str) -> Response:
    known = {path.relative_to(FOLDER).as_posix() for path in FOLDER.rglob("*")}
    if name not in known or bundle() is None:
        abort(404)
    path, packed = FOLDER / name, ""
    for way, end in PACKED.items():
        if request.accept_encodings.find(way) >= 0 and name + end in known:
            path, packed = FOLDER / (name + end), way
            break
    mime = TYPES.get(Path(name).suffix)
    answer = send_file(path, mimetype=mime, conditional=True, etag=True, max_age=0)
    answer.headers["Vary"] = "Accept-Encoding"
    answer.headers["Cache-Control"] = "no-cache"
    if packed:
        answer.headers["Content-Encoding"] = packed
    if name == COMPILES:
        policy = POLICY.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'")
        answer.headers["Content-Security-Policy"] = policy
    return answer
