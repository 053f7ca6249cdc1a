"""``evenstand serve``: the book in a browser."""

import platform
import tempfile
import webbrowser
from collections.abc import Callable
from pathlib import Path
from threading import Timer
from typing import Protocol

import click

from evenstand.book.book import Book
from evenstand.book.opening import open_book
from evenstand.book.place import default_path, device_name
from evenstand.demo.book import fill
from evenstand.engine.errors import MeasurementError
from evenstand.engine.words import say

from .book import opened
from .flags import example
from .output import Out

LOOPBACK = ("127.0.0.1", "localhost", "::1")


class Serve(Protocol):
    """What serves a book until it is interrupted."""

    def __call__(
        self,
        book: Book,
        *,
        host: str,
        port: int,
        invented: bool,
        ready: Callable[[str], None],
    ) -> None:
        """Call ``ready`` with the address as soon as it listens, and answer."""


def serve_command(serve: Serve) -> click.Command:
    """Make the command of what serves a book.

    Parameters
    ----------
    serve : Serve
    """

    @click.command("serve", epilog=example("evenstand serve --demo"))
    @click.option(
        "--book",
        "where",
        type=click.Path(path_type=Path),
        default=default_path,
        show_default=False,
        metavar="PATH",
        help="The book, instead of that in your own data folder.",
    )
    @click.option("--host", default="127.0.0.1", show_default=True, help="Where to listen.")
    @click.option(
        "--port",
        default=8090,
        show_default=True,
        type=click.IntRange(0, 65535),
        help="0: any that is free.",
    )
    @click.option("--demo", is_flag=True, help="Open a copy of an invented book.")
    @click.option("--no-browser", is_flag=True, help="Do not open a browser.")
    def command(*, where: Path, host: str, port: int, demo: bool, no_browser: bool) -> None:
        """Open the book in a browser on this computer.

        Everything the pages do stays in the book. End it with Ctrl-C.
        """
        out = Out.of(json=False, units="us", working=False)
        try:
            _refuse_strangers(host)
            tell = _teller(out, demo=demo, browser=not no_browser)
            with (
                tempfile.TemporaryDirectory() as folder,
                _book(Path(folder) / "demo.evenstand" if demo else where, demo=demo) as book,
            ):
                serve(book, host=host, port=port, invented=demo, ready=tell)
        except MeasurementError as error:
            raise out.refuse(error) from None

    return command


def _refuse_strangers(host: str) -> None:
    if host not in LOOPBACK:
        need = say(
            "use 127.0.0.1: other devices could read and change everything, because this release "
            "has no accounts yet. To bring a book to another device use evenstand book export"
        )
        raise MeasurementError("--host", host, need)


def _book(where: Path, *, demo: bool) -> Book:
    if not demo:
        return opened(where, create=True)
    book = open_book(where, device=device_name(platform.node()), who="Tamarack Flats")
    fill(book)
    return book


def _teller(out: Out, *, demo: bool, browser: bool) -> Callable[[str], None]:
    def tell(address: str) -> None:
        what = "An invented book, gone when this ends" if demo else "The book"
        out.say(f"{what}: {address}", "End it with Ctrl-C.")
        if browser:
            Timer(0.3, webbrowser.open, (address,)).start()

    return tell
