"""The embedded server: one process, for this computer alone or for its network."""

import logging
import signal
import socket
import sys
import threading
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from typing import Any
from urllib.parse import urlsplit

from waitress.server import create_server

from evenstand.book.book import Book
from evenstand.book.people.security_log import written_beside
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say

from ..site.settings import LOOPBACK, Settings
from .addresses import ANY, in_url, is_loopback, reached_at
from .app import create_app
from .connections import IDLE, MOST_CONNECTIONS, Channel

QUIET = 2  # s
_OPTIONS: Mapping[str, Any] = {
    "threads": 4,
    "ident": None,
    "asyncore_use_poll": True,  # select() ends at file 1,024
    "connection_limit": MOST_CONNECTIONS,
    "channel_timeout": IDLE,
    "cleanup_interval": 5,
}
PROXY = "127.0.0.1"  # the only one whose word is taken for where a request comes from
_FORWARDED = frozenset({"x-forwarded-for", "x-forwarded-proto", "x-forwarded-host"})
Ready = Callable[[str, tuple[str, ...]], None]


def serve(
    book: Book, *, host: str, port: int, proxy: str, settings: Settings, ready: Ready
) -> None:
    """Answer until interrupted.

    Parameters
    ----------
    host : str
        An address or a name of this computer; ``0.0.0.0`` and ``::`` are all of them.
    port : int
        0 takes one that is free.
    proxy : str
        The address under which a server on this computer shows the pages to
        others, such as ``https://drills.example``; empty where there is none.
    settings : Settings
        Its names, and who reaches the pages, are worked out here.
    ready : callable
        Called as soon as it listens, with the address for this computer and
        those for others.

    Raises
    ------
    MeasurementError
        Where the host or the port cannot be used.
    """
    listening = _listen(host, port)
    at = listening.getsockname()[1]
    others = tuple(f"http://{in_url(each)}:{at}/" for each in reached_at(host))
    others = ((proxy.rstrip("/") + "/",) if proxy else ()) + others
    known = _known(settings, others, host=host)
    trusted: Mapping[str, Any] = _trusting() if proxy else {}
    app = create_app(book, settings=known)
    server = create_server(app, sockets=[listening], **_OPTIONS, **trusted)
    server.channel_class = Channel
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # it says whenever a request waits
    ready(f"http://{in_url('127.0.0.1' if host in ANY else host)}:{at}/", others)
    try:
        with _ending_well(), _settling(book), written_beside(book.file):
            server.run()
    finally:
        server.close()


@contextmanager
def _ending_well() -> Iterator[None]:
    """End as by Ctrl-C when the system asks for it, so that the book is closed."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


@contextmanager
def _settling(book: Book) -> Iterator[None]:
    """Let the file alone hold the whole book whenever nobody writes."""
    done = threading.Event()

    def settle() -> None:
        while not done.wait(QUIET):
            with suppress(MeasurementError):  # the next time, or when it is closed
                book.settle()

    thread = threading.Thread(target=settle, daemon=True)
    thread.start()
    try:
        yield
    finally:
        done.set()
        thread.join()


def _known(settings: Settings, others: tuple[str, ...], *, host: str) -> Settings:
    """Let the pages know under which names they are asked for, and by whom."""
    own = (socket.gethostname(), socket.gethostname() + ".local") if host in ANY else ()
    names = [urlsplit(address).hostname or "" for address in others]
    shared = bool(others) or not is_loopback(host)
    return replace(settings, hosts=(*LOOPBACK, *names, *own), shared=shared, phone=others)


def _trusting() -> Mapping[str, Any]:
    """Believe a server in front, on this computer, where a request comes from."""
    return {
        "trusted_proxy": PROXY,
        "trusted_proxy_count": 1,
        "trusted_proxy_headers": _FORWARDED,
        "clear_untrusted_proxy_headers": True,
    }


def _listen(host: str, port: int) -> socket.socket:
    try:
        [(family, *_, address), *_] = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    except OSError as refused:
        raise MeasurementError("--host", host, _unusable(refused)) from None
    listening = socket.socket(family)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    if host == "::" and socket.has_dualstack_ipv6():
        listening.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 0)
    try:
        listening.bind(address)
    except OSError as refused:
        listening.close()
        field, given = ("--port", str(port)) if _is_own(host) else ("--host", host)
        raise MeasurementError(field, given, _unusable(refused)) from None
    return listening


def _is_own(host: str) -> bool:
    return host in ANY or is_loopback(host)


def _unusable(refused: OSError) -> Phrase:
    return say("can't be used: {why}", why=refused.strerror or str(refused))
