"""New files that are there whole, or not at all."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from evenstand.engine.quantities.phrases import Phrase, say

from .errors import BookError


@contextmanager
def new_file(path: Path) -> Iterator[Path]:
    """Give a path to write to, and put what stands there in place when all is written.

    Raises
    ------
    BookError
        For a file that is there already, or cannot be written.
    """
    if path.exists():
        raise BookError("file", str(path), say("give the name of a new file: this one is there"))
    beside = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        yield beside
        with beside.open("rb+") as written:
            os.fsync(written.fileno())
        beside.replace(path)
    except OSError as refused:
        raise BookError("file", str(path), unusable(refused)) from None
    finally:
        beside.unlink(missing_ok=True)


def unusable(refused: OSError) -> Phrase:
    """Say what the system says of a file."""
    return say("give a file that can be used: {said}", said=refused.strerror or str(refused))
