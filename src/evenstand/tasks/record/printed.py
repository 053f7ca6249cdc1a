"""Whether a printed record and a book still agree: by the fingerprint that the PDF carries."""

import re
from dataclasses import dataclass
from typing import Literal

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.freezing import fingerprint
from evenstand.book.kinds.frozen import Frozen
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.written import put

from .frozen import Version, versions

Verdict = Literal["agrees", "amended", "damaged", "unknown"]
_PRINTED = re.compile(rb"evenstand sha256 ([0-9a-f]{64})")


@dataclass(frozen=True, kw_only=True)
class Agreement:
    """What a book says of the fingerprint of a printed record; no version where it knows none."""

    KEYS = (
        *("verdict", "sha256", put("job", optional=True), put("version", optional=True)),
        *("versions", "say"),
    )

    verdict: Verdict
    sha256: str
    job: str | None
    version: int | None
    versions: int
    say: Phrase


def fingerprint_of(pdf: bytes) -> str:
    """Return the fingerprint in a PDF.

    Raises
    ------
    MeasurementError
        For a file without one.
    """
    found = _PRINTED.search(pdf)
    if found is None:
        need = say("choose the PDF of a finished record: this file has no fingerprint")
        raise MeasurementError("file", None, need)
    return found[1].decode()


def check_printed(book: Book, sha256: str) -> Agreement:
    """Look for the version with a fingerprint, and see whether its entries are what they were."""
    bodies = [thing.body for thing in book.things(Frozen.kind)]
    jobs = [
        each.job
        for each in bodies
        if isinstance(each, Frozen) and each.setting is None and each.sha256 == sha256
    ]
    known = versions(book, jobs[0]) if jobs else ()
    version = next((each for each in known if each.body.sha256 == sha256), None)
    verdict, told = _verdict(book, version, known)
    return Agreement(
        verdict=verdict,
        sha256=sha256,
        job=version.body.job if version else None,
        version=version.number if version else None,
        versions=len(known),
        say=told,
    )


def _verdict(
    book: Book, version: Version | None, known: tuple[Version, ...]
) -> tuple[Verdict, Phrase]:
    if version is None:
        return "unknown", say("Not of this book: no record here has this fingerprint.")
    n, last = version.number, len(known)
    if not _is_whole(book, version):
        text = "Version {n}, but its entries here are missing or damaged."
        return "damaged", say(text, n=n)
    if n < last:
        text = "Agrees with version {n}, amended since: version {last} is the newest."
        return "amended", say(text, n=n, last=last)
    return "agrees", say("Agrees: version {n} of {all}.", n=n, all=last)


def _is_whole(book: Book, version: Version) -> bool:
    try:
        return fingerprint(book.many.entries(version.body.entries)) == version.body.sha256
    except BookError:
        return False
