"""What a browser is told about these pages, and whose requests are refused.

A form rendered by a server may be sent to the same pages on a phone, so that
there is no token: a browser says itself where a request comes from.
"""

from urllib.parse import urlsplit

from flask import Flask, Response, abort, request
from werkzeug.exceptions import SecurityError

from . import here

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "font-src 'self'",
        "img-src 'self' data: blob:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), geolocation=(self), microphone=()",
}
A_YEAR = 365 * 24 * 3600  # s
READING = ("GET", "HEAD", "OPTIONS")
MOST_BYTES = 2 * 1024 * 1024  # of a request; a page that takes more says so itself


def protect(app: Flask) -> None:
    """Put the headers on every answer and refuse what other sites send."""
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES
    app.before_request(_refuse_other_names)
    app.before_request(_refuse_other_sites)
    app.after_request(_with_headers)


def _refuse_other_names() -> None:
    """Refuse to be asked for under a name that somebody else may point at this computer."""
    try:
        asked = urlsplit("//" + request.host).hostname
    except ValueError:
        asked = None
    if asked not in [name.strip("[]").lower() for name in here.settings().hosts]:
        raise SecurityError


def _refuse_other_sites() -> None:
    if request.method in READING:
        return
    if request.headers.get("Sec-Fetch-Site", "same-origin") not in ("same-origin", "none"):
        abort(403)
    if request.headers.get("Origin", request.host_url.rstrip("/")) != request.host_url.rstrip("/"):
        abort(403)


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    if request.is_secure and not here.settings().on_phone:
        response.headers.setdefault("Strict-Transport-Security", f"max-age={A_YEAR}")
    if request.endpoint != "static":
        response.headers.setdefault("Cache-Control", "no-store")
    if response.status_code == 401:
        response.headers.setdefault("WWW-Authenticate", 'Session realm="Evenstand"')
    return response
