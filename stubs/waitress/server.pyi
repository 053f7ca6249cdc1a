from collections.abc import Iterable
from socket import socket
from wsgiref.types import WSGIApplication

class BaseWSGIServer:
    def run(self) -> None: ...
    def close(self) -> None: ...

def create_server(
    application: WSGIApplication,
    *,
    sockets: Iterable[socket] = ...,
    threads: int = ...,
    ident: str | None = ...,
) -> BaseWSGIServer: ...
