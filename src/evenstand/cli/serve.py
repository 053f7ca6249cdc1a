"""``evenstand serve``: the book in a browser, here and on the phones around."""

import io
import platform
import tempfile
import webbrowser
from pathlib import Path
from shlex import quote
from threading import Timer
from urllib.parse import urlsplit

import click

from evenstand.book.book import Book
from evenstand.book.opening import open_book
from evenstand.book.place import default_path, device_name
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.tasks.record.frozen import freeze_old, not_frozen, not_locked

from .book import opened
from .clock import this_month
from .flags import example
from .office import Office, Ready
from .output import Out

MANY = 20  # records that take longer to freeze than anybody waits without a word
LOOPBACK = ("127.0.0.1", "localhost", "::1")


@click.command("serve", epilog=example("evenstand serve --demo"))
@click.option(
    "--book",
    "where",
    type=click.Path(path_type=Path),
    default=default_path,
    show_default=False,
    metavar="PATH",
    help="Use this book instead of the one in your data folder.",
)
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="Address to listen on; use 0.0.0.0 to allow other devices.",
)
@click.option(
    "--port",
    default=8090,
    show_default=True,
    type=click.IntRange(0, 65535),
    help="0 picks any free port.",
)
@click.option(
    "--behind-proxy",
    "proxy",
    default="",
    metavar="ADDRESS",
    help="Public https address of the proxy in front of this.",
)
@click.option("--demo", is_flag=True, help="Open a demo book (made-up data).")
@click.option("--no-browser", is_flag=True, help="Don't open a browser.")
@click.pass_obj
def serve(  # noqa: PLR0917 - click names them
    office: Office, where: Path, host: str, port: int, proxy: str, demo: bool, no_browser: bool
) -> None:
    """Open the book in a browser on this computer.

    Everything the pages do stays in the book. Other devices can sign in
    once the book has an account: evenstand people add NAME, then --host
    0.0.0.0. Stop with Ctrl-C.
    """
    out = Out.of(json=False, units="us", working=False)
    try:
        _check_proxy(proxy)
        shared = bool(proxy) or host not in LOOPBACK
        if shared and demo:
            raise MeasurementError("--demo", None, _NOT_THE_DEMO)
        if shared and not where.is_file():
            raise _no_account(where, given=proxy or host)
        tell = _teller(out, demo=demo, browser=not no_browser)
        with (
            tempfile.TemporaryDirectory() as folder,
            _book(Path(folder) / "demo.evenstand" if demo else where, demo=demo) as book,
        ):
            if shared and not book.people.any():
                raise _no_account(where, given=proxy or host)
            if (waiting := len(not_frozen(book)) + len(not_locked(book))) > MANY:
                out.say(
                    f"Freezing {waiting:,} finished jobs and settings, once: this takes a while."
                )
            freeze_old(book, today=this_month(None), **({"why": ""} if demo else {}))
            office.serve(book, host=host, port=port, proxy=proxy, invented=demo, ready=tell)
    except MeasurementError as error:
        raise out.refuse(error) from None


_NOT_THE_DEMO = say("use it at 127.0.0.1: the demo book has no accounts")


def _check_proxy(address: str) -> None:
    parts = urlsplit(address)
    good = parts.scheme in ("http", "https") and parts.hostname and parts.path in ("", "/")
    if address and not good:
        need = say("enter the full address of a site, such as https://drills.example")
        raise MeasurementError("--behind-proxy", address, need)


def _no_account(where: Path, *, given: str) -> MeasurementError:
    """Say how others may reach a book: when they must sign in."""
    there = "" if where == default_path() else f" --book {quote(str(where))}"
    need = say(
        "make an account first, or anyone who reaches this computer can read and "
        "change the book: {command}",
        command=f"evenstand people add NAME{there}",
    )
    return MeasurementError("--host", given, need)


def _book(where: Path, *, demo: bool) -> Book:
    if not demo:
        return opened(where, create=True)
    from evenstand.demo.book import fill

    book = open_book(where, device=device_name(platform.node()), who="Tamarack Flats")
    fill(book)
    return book


def _teller(out: Out, *, demo: bool, browser: bool) -> Ready:
    def tell(address: str, others: tuple[str, ...]) -> None:
        what = "Demo book; discarded when this stops" if demo else "The book"
        out.say(f"{what}: {address}", *_for_others(others), "Stop with Ctrl-C.")
        if browser:
            Timer(0.3, webbrowser.open, (address,)).start()

    return tell


def _for_others(addresses: tuple[str, ...]) -> list[str]:
    """Say how other devices come to the book, and what comes with it."""
    if not addresses:
        return []
    lines = ["For other devices (sign-in required):", *(f"  {each}" for each in addresses)]
    lines += ["", *to_scan(addresses[0]), ""]
    if not addresses[0].startswith("https:"):
        lines += [
            "The way there is not encrypted: others in this network can read along, passwords",
            "too. In a network that is not your own, put a server with https in front and give",
            "its address: --behind-proxy https://NAME. A tunnel of your own does as well.",
        ]
    return lines


def to_scan(text: str) -> list[str]:
    """Return a text as a QR code, light blocks on a dark terminal, two modules to a line.

    A phone reads it the other way round too, as on a light terminal.
    """
    import segno

    drawn = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(drawn, compact=True)
    return drawn.getvalue().rstrip("\n").split("\n")
