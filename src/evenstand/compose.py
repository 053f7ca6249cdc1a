"""The composition root: what the program is made of is put together here and nowhere else."""

from pathlib import Path

from evenstand.book.book import Book
from evenstand.cli.line import CommandLine, commands
from evenstand.cli.phone import phone_command
from evenstand.cli.serve import Ready, serve_command


def command_line() -> CommandLine:
    """Return the command line with its commands."""
    commands.add_command(serve_command(_serve))
    commands.add_command(phone_command(_write_folder))
    return commands


def _serve(book: Book, *, host: str, port: int, proxy: str, invented: bool, ready: Ready) -> None:
    """Serve the pages; what they need is imported only now."""
    from evenstand.web.run.server import serve
    from evenstand.web.site.settings import Settings

    settings = Settings(invented=invented)
    serve(book, host=host, port=port, proxy=proxy, settings=settings, ready=ready)


def _write_folder(target: Path, *, base: str) -> int:
    from evenstand.web.phone.folder import write_folder

    return write_folder(target, base=base)
