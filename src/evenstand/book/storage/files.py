"""New files that are there whole, or not at all."""

import glob
import os
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from evenstand.engine.quantities.phrases import Phrase, say

from ..errors import BookError

PRIVATE = 0o600
LEFT = 3600  # s: nobody writes as long


@contextmanager
def new_file(path: Path) -> Iterator[Path]:
    """Give a path to write to, and put what stands there in place when all is written.

    Raises
    ------
    BookError
        For a file that is there already, or cannot be written.
    """
    if path.exists():
        raise BookError(
            "file", str(path), say("enter the name of a new file: this one already exists")
        )
    beside = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        _sweep(path)
        own(beside, create=True)
        yield beside
        with beside.open("rb+") as written:
            os.fsync(written.fileno())
        beside.replace(path)
    except OSError as refused:
        raise BookError("file", str(path), unusable(refused)) from None
    finally:
        beside.unlink(missing_ok=True)


def own(path: Path, *, create: bool) -> None:
    """Let only the person whose file it is read it; ``create`` makes it where it is not there.

    What cannot be made or changed is left for who opens it to refuse.
    """
    with suppress(OSError):
        if create and not path.exists():
            os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE))
        elif stat.S_IMODE(path.stat().st_mode) & ~PRIVATE:
            path.chmod(PRIVATE)


def _sweep(path: Path) -> None:
    """Take away what a program that was killed has left of the same file."""
    for left in path.parent.glob(f"{glob.escape(path.name)}.*.part"):
        if left.stat().st_mtime < time.time() - LEFT:
            left.unlink(missing_ok=True)


def unusable(refused: OSError) -> Phrase:
    """Say what the system says of a file."""
    return say("choose a file that can be used: {said}", said=refused.strerror or str(refused))
