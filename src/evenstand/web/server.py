"""The embedded server: one process, this computer alone."""

import socket
from collections.abc import Callable

from waitress.server import create_server

from evenstand.book.book import Book
from evenstand.engine.errors import MeasurementError
from evenstand.engine.words import say

from .app import create_app
from .settings import Settings

THREADS = 4


def serve(
    book: Book, *, host: str, port: int, settings: Settings, ready: Callable[[str], None]
) -> None:
    """Answer until interrupted.

    Parameters
    ----------
    book : Book
    host : str
    port : int
        0 takes one that is free.
    settings : Settings
    ready : callable
        Called with the address as soon as it listens.

    Raises
    ------
    MeasurementError
        Where the port is taken.
    """
    listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
    except OSError as refused:
        listening.close()
        need = say("it cannot be used: {why}", why=refused.strerror or str(refused))
        raise MeasurementError("--port", port, need) from None
    app = create_app(book, settings=settings)
    server = create_server(app, sockets=[listening], threads=THREADS, ident=None)
    name = f"[{host}]" if ":" in host else host
    ready(f"http://{name}:{listening.getsockname()[1]}/")
    try:
        server.run()
    finally:
        server.close()
