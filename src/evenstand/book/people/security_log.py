"""The security log beside a book: who signed in, and what opened the book to others or closed it.

One line of JSON for each, without a password, a code or a key: when, what, how it was answered
(the HTTP status), who, from which address.
"""

import json
import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from ..storage.files import own

LOG = logging.getLogger("evenstand.security")
END = ".security.log"  # beside the book
MOST_BYTES, OLDER = 1_000_000, 4  # of a file, and how many full ones are left
DONE = 200


def write(
    event: str, more: Mapping[str, object], *, who: str, where: str, answer: int = DONE
) -> None:
    """Write a line, where a log is open.

    Parameters
    ----------
    more : mapping
        What else there is to say of it.
    where : str
        From which address, or by which program.
    """
    at = datetime.now(UTC).isoformat(timespec="seconds")
    line = {"at": at, "event": event, "answer": answer, "who": who, "from": where, **more}
    LOG.info(json.dumps(line))


@contextmanager
def written_beside(book: Path | None) -> Iterator[None]:
    """Write beside a book, for its owner alone, into a file that is begun anew when it is full."""
    if book is None:  # in memory alone
        yield
        return
    from logging.handlers import RotatingFileHandler  # which no phone carries

    where = book.with_name(book.name + END)
    own(where, create=True)
    handler = RotatingFileHandler(
        where, maxBytes=MOST_BYTES, backupCount=OLDER, encoding="utf-8", delay=True
    )
    handler.setFormatter(logging.Formatter("%(message)s"))
    LOG.setLevel(logging.INFO)
    LOG.propagate = False
    LOG.addHandler(handler)
    try:
        yield
    finally:
        LOG.removeHandler(handler)
        handler.close()
