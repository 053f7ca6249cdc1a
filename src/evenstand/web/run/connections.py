"""Connections that others open: how many, how slow, and how much each may send."""

import re
from collections.abc import Iterable
from copy import copy
from socket import socket
from time import monotonic

from waitress.adjustments import Adjustments
from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.server import BaseWSGIServer

from ..book.book import MOST_IMPORT
from ..book.tables import MOST_SENT as MOST_TABLE
from ..seed.photos import MOST_SENT as MOST_PHOTO
from ..site.security import MOST_BYTES

MOST_CONNECTIONS = 500
PER_ADDRESS = 100  # a whole farm may sit behind one
IDLE = 15  # s without a byte
HEADERS = 15  # s until all headers are here
BODY, LEAST_SPEED = 30, 2_000  # s until a body must come at so many bytes/s on average
BEYOND = 1024 * 1024  # bytes that a page still answers in words, over what it takes

# What takes more than other pages do: by the path that it is sent to.
_MORE = (
    (re.compile(r"/(book|api)/import"), MOST_IMPORT),
    (re.compile(r"/tables/(look|take)"), MOST_TABLE),
    (re.compile(r"/seed/[^/]+/photos/new"), MOST_PHOTO),
)


def most_sent(path: str) -> int:
    """Return how much is read of what is sent to a path. [byte]

    Examples
    --------
    >>> most_sent("/api/import") > most_sent("/api/things")
    True
    """
    return BEYOND + next((most for way, most in _MORE if way.fullmatch(path)), MOST_BYTES)


class Parser(HTTPRequestParser):
    """Reads a request; one that is too large for where it goes is refused unread."""

    def parse_header(self, header_plus: bytes) -> None:
        """Read the headers, and learn how much may follow."""
        super().parse_header(header_plus)
        self.adj = copy(self.adj)
        self.adj.max_request_body_size = most_sent(self.path)


class Channel(HTTPChannel):
    """A connection: a slow one ends, and where there are too many, the one that waits longest."""

    parser_class = Parser

    def __init__(  # noqa: PLR0917 - as the server calls it
        self,
        server: BaseWSGIServer,
        sock: socket,
        addr: tuple[str, int],
        adj: Adjustments,
        map: dict[int, object] | None = None,
    ) -> None:
        self.since = monotonic()
        open_now = [each for each in server.active_channels.values() if isinstance(each, Channel)]
        _make_room(open_now, address=addr[0])
        super().__init__(server, sock, addr, adj, map=map)

    def received(self, data: bytes) -> bool:
        """Take what came in; a request begins with its first byte."""
        if self.request is None:
            self.since = monotonic()
        return super().received(data)

    def readable(self) -> bool:
        """Whether more is read of it: not where it comes too slowly."""
        if (
            self.is_waiting()
            and self.request
            and monotonic() > self.since + _time_for(self.request)
        ):
            self.will_close = True
        return super().readable()

    def is_waiting(self) -> bool:
        """Whether nothing is being answered here."""
        return not self.requests and not self.total_outbufs_len


def _time_for(asked: HTTPRequestParser) -> float:
    """Return how long a request may take to come in. [s]"""
    if not asked.headers_finished:
        return HEADERS
    return BODY + asked.body_bytes_received / LEAST_SPEED


def _make_room(channels: Iterable[Channel], *, address: str) -> None:
    """End the connections that wait longest, of an address and of all, where too many are open."""
    waiting = sorted((c for c in channels if c.is_waiting()), key=lambda c: c.since)
    own = [channel for channel in waiting if channel.addr[0] == address]
    over = max(0, len(own) + 1 - PER_ADDRESS), max(0, len(waiting) + 1 - MOST_CONNECTIONS * 9 // 10)
    for channel in {*own[: over[0]], *waiting[: over[1]]}:
        channel.will_close = True
