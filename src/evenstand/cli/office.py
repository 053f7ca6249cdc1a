"""What commands need of the pages; the composition root hands it to them."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from evenstand.book.book import Book

Ready = Callable[[str, tuple[str, ...]], None]


class Serve(Protocol):
    """What serves a book until it is interrupted."""

    def __call__(
        self, book: "Book", *, host: str, port: int, proxy: str, invented: bool, ready: Ready
    ) -> None:
        """Call ``ready`` as soon as it listens, and answer.

        ``ready`` takes the address for this computer and those for others.
        """


class WriteFolder(Protocol):
    """What writes the files that phones load; gives how many."""

    def __call__(self, target: Path, *, base: str) -> int:
        """Write them below ``target``, for a host that shows them below ``base``."""


@dataclass(frozen=True)
class Office:
    """What serves, and what writes the folder for phones."""

    serve: Serve
    write_folder: WriteFolder
