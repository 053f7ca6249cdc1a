from socket import socket

from .adjustments import Adjustments
from .parser import HTTPRequestParser
from .server import BaseWSGIServer

class HTTPChannel:
    parser_class: type[HTTPRequestParser]
    request: HTTPRequestParser | None
    requests: list[HTTPRequestParser]
    total_outbufs_len: int
    addr: tuple[str, int]
    will_close: bool
    def __init__(
        self,
        server: BaseWSGIServer,
        sock: socket,
        addr: tuple[str, int],
        adj: Adjustments,
        map: dict[int, object] | None = None,
    ) -> None: ...
    def received(self, data: bytes) -> bool: ...
    def readable(self) -> bool: ...
