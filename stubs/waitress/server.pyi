from collections.abc import Iterable
from socket import socket
from wsgiref.types import WSGIApplication

from .channel import HTTPChannel

class BaseWSGIServer:
    channel_class: type[HTTPChannel]
    active_channels: dict[int, HTTPChannel]
    def run(self) -> None: ...
    def close(self) -> None: ...

def create_server(
    application: WSGIApplication,
    *,
    sockets: Iterable[socket] = ...,
    threads: int = ...,
    ident: str | None = ...,
) -> BaseWSGIServer: ...
