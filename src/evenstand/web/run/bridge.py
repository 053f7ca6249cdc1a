"""The pages without a server: the same app answers a browser in the process it runs in."""

import io
import sys
from collections.abc import Callable, Iterable, Mapping, MutableMapping
from typing import Any
from urllib.parse import unquote_to_bytes, urlsplit
from wsgiref.types import WSGIApplication, WSGIEnvironment

Headers = list[tuple[str, str]]
Answer = tuple[int, Headers, bytes]

PORTS = {"http": 80, "https": 443}


class Bridge:
    """Hands requests to an app by the Web Server Gateway Interface.

    A browser's own Response cannot carry Set-Cookie, so that cookies stay in
    here. There is one app behind, hence one cookie of each name.

    Parameters
    ----------
    origin : str
        Where the pages seem to come from, for a URL that does not say it.
    root : str
        Path below which they lie, such as ``/field/log``.
    cookies : mutable mapping, optional
        Cookies by name, as they were left: kept up to date in place.

    References
    ----------
    PEP 3333, "Python Web Server Gateway Interface v1.0.1" (2010).
    """

    def __init__(
        self,
        app: WSGIApplication,
        *,
        origin: str = "http://localhost",
        root: str = "",
        cookies: MutableMapping[str, str] | None = None,
    ) -> None:
        self.cookies = {} if cookies is None else cookies
        self._app, self._origin, self._root = app, origin, root.rstrip("/")

    def handle(  # noqa: PLR0917 - JavaScript calls it, which names no arguments
        self, method: str, url: str, headers: Any = None, body: Any = None
    ) -> Answer:
        """Answer a request.

        Parameters
        ----------
        url : str
            Whole, or from its path on.
        headers : mapping, pairs, or an object or Headers of JavaScript, optional
            A Cookie among them gives way to the cookies kept here.
        body : bytes, str or a browser's bytes, optional
            None, ``undefined`` and ``null`` are no body.

        Returns
        -------
        tuple
            Status, headers without Set-Cookie, body. What lies outside
            ``root`` is not found.
        """
        parts = urlsplit(url if "://" in url else self._origin + url)
        if parts.path != self._root and not parts.path.startswith(self._root + "/"):
            return 404, [("Content-Type", "text/plain")], b"Not found"
        environ = dict(_variable(name, value) for name, value in _pairs(headers))
        environ.pop("HTTP_COOKIE", None)
        environ |= _address(method, parts.geturl(), self._root) | _sent(_bytes(body))
        if self.cookies:
            environ["HTTP_COOKIE"] = "; ".join(f"{k}={v}" for k, v in self.cookies.items())
        return self._without_cookies(_run(self._app, environ))

    def _without_cookies(self, answer: Answer) -> Answer:
        status, headers, body = answer
        for name, value in headers:
            if name.lower() == "set-cookie":
                self._keep(value)
        return status, [pair for pair in headers if pair[0].lower() != "set-cookie"], body

    def _keep(self, set_cookie: str) -> None:
        """Keep a cookie as it is written, or drop it where its time is over."""
        pair, *attributes = (part.strip() for part in set_cookie.split(";"))
        name, _, value = pair.partition("=")
        said = dict(each.lower().partition("=")[::2] for each in attributes)
        if int(said.get("max-age", 1)) <= 0:
            self.cookies.pop(name, None)
        else:
            self.cookies[name] = value


def _address(method: str, url: str, root: str) -> WSGIEnvironment:
    parts = urlsplit(url)
    return {
        "REQUEST_METHOD": method.upper(),
        "SCRIPT_NAME": root,
        "PATH_INFO": unquote_to_bytes(parts.path[len(root) :] or "/").decode("latin-1"),
        "QUERY_STRING": parts.query,
        "SERVER_NAME": parts.hostname or "",
        "SERVER_PORT": str(parts.port or PORTS[parts.scheme]),
        "SERVER_PROTOCOL": "HTTP/1.1",
        "REMOTE_ADDR": "127.0.0.1",
        "HTTP_HOST": parts.netloc,
        "wsgi.url_scheme": parts.scheme,
    }


def _sent(body: bytes) -> WSGIEnvironment:
    return {
        "CONTENT_LENGTH": str(len(body)),
        "wsgi.version": (1, 0),
        "wsgi.input": io.BytesIO(body),
        "wsgi.errors": sys.stderr,
        "wsgi.multithread": False,
        "wsgi.multiprocess": False,
        "wsgi.run_once": False,
    }


def _pairs(headers: Any) -> Iterable[tuple[str, str]]:
    """Return pairs; JavaScript's null is no None, but like it false."""
    if not headers:
        return ()
    if isinstance(headers, Mapping):
        return headers.items()
    return headers if isinstance(headers, Iterable) else _of_object(headers)


def _of_object(headers: Any) -> Iterable[tuple[str, str]]:
    """Return the pairs of a plain object of JavaScript, which Python cannot go through."""
    pairs: Iterable[tuple[str, str]] = headers.object_entries()
    return pairs


def _variable(name: str, value: str) -> tuple[str, str]:
    variable = name.upper().replace("-", "_")
    bare = variable in ("CONTENT_TYPE", "CONTENT_LENGTH")
    return variable if bare else f"HTTP_{variable}", value


def _bytes(body: Any) -> bytes:
    if not body:
        return b""
    if isinstance(body, str):
        return body.encode()
    from_browser: Callable[[], bytes] | None = getattr(body, "to_bytes", None)
    return from_browser() if from_browser else bytes(body)


def _run(app: WSGIApplication, environ: WSGIEnvironment) -> Answer:
    begun: list[tuple[str, Headers]] = []
    written: list[bytes] = []

    def start(status: str, headers: Headers, fault: Any = None, /) -> Callable[[bytes], object]:
        begun.append((status, headers))
        return written.append

    found = app(environ, start)
    try:
        written += found
    finally:
        close: Callable[[], None] | None = getattr(found, "close", None)
        if close:
            close()
    status, headers = begun[-1]
    return int(status[:3]), headers, b"".join(written)
