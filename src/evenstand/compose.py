"""The composition root: what the program is made of is put together here and nowhere else."""

from collections.abc import Callable

from evenstand.book.book import Book
from evenstand.cli.line import CommandLine, commands
from evenstand.cli.serve import serve_command


def command_line() -> CommandLine:
    """Return the command line with its commands."""
    commands.add_command(serve_command(_serve))
    return commands


def _serve(
    book: Book, *, host: str, port: int, invented: bool, ready: Callable[[str], None]
) -> None:
    """Serve the pages; what they need is imported only now."""
    from evenstand.web.server import serve
    from evenstand.web.settings import Settings

    serve(book, host=host, port=port, settings=Settings(invented=invented), ready=ready)
