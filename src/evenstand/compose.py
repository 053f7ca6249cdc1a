"""The composition root: what the program is made of is put together here and nowhere else."""

from pathlib import Path
from typing import TYPE_CHECKING

from evenstand.cli.line import CommandLine, commands
from evenstand.cli.office import Office, Ready

if TYPE_CHECKING:
    from evenstand.book.book import Book


def command_line() -> CommandLine:
    """Return the command line with what its commands need of the pages."""
    commands.context_settings["obj"] = Office(_serve, _write_folder)
    return commands


def _serve(book: "Book", *, host: str, port: int, proxy: str, invented: bool, ready: Ready) -> None:
    """Serve the pages; what they need is imported only now."""
    from evenstand.web.run.server import serve
    from evenstand.web.site.settings import Settings

    settings = Settings(invented=invented)
    serve(book, host=host, port=port, proxy=proxy, settings=settings, ready=ready)


def _write_folder(target: Path, *, base: str) -> int:
    from evenstand.web.phone.folder import write_folder

    return write_folder(target, base=base)
