"""The open file by which books exchange entries: JSON lines in a zip. See docs/format.md."""

import hashlib
import zlib
from collections.abc import Callable, Iterable, Iterator
from itertools import count
from pathlib import Path
from typing import IO, Annotated, BinaryIO, Literal
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

import msgspec
from msgspec import Meta, Raw, Struct

from evenstand import __version__
from evenstand.engine.quantities.phrases import Phrase, say

from .book import Book
from .errors import BookError
from .log.entries import MOST_BYTES, Entry, read
from .log.nesting import is_too_deep
from .storage.files import new_file, unusable
from .storage.thing import Merged

Admit = Callable[[Book, Iterable[Entry]], Iterable[Entry]]

FILE_FORMAT = 1
MANIFEST, ENTRIES = "manifest.json", "entries.jsonl"
MOST_MANIFEST = 64 * 1024  # bytes
MOST_LINE = MOST_BYTES + 100  # an entry and what stands around it
MOST_UNPACKED = 4 * 1024**3
MOST_PACKING = 100  # unpacked ÷ packed; entries do not pack tighter than about 15

_DAMAGE = (
    BadZipFile, zlib.error, EOFError, OSError,
    NotImplementedError, RuntimeError, ValueError, KeyError,
)  # fmt: skip


class Manifest(Struct, frozen=True, kw_only=True):
    """What a file says of itself."""

    evenstand: Literal["book"] = "book"
    format: Annotated[int, Meta(ge=1)] = FILE_FORMAT
    release: str = __version__
    entries: Annotated[int, Meta(ge=0)]
    sha256: Annotated[str, Meta(pattern="^[0-9a-f]{64}$")]


class EntryLine(Struct, frozen=True):
    """A line of entries: one of them, and the CRC-32 of its text."""

    crc32: str
    entry: Raw


def as_they_are(book: Book, entries: Iterable[Entry]) -> Iterable[Entry]:
    """Let in whatever a file holds: one of this book itself."""
    return entries


def export_book(book: Book, path: Path) -> int:
    """Write all entries of a book into a new file; gives their number.

    Raises
    ------
    BookError
        For a file that is there already, or cannot be written.
    """
    with new_file(path) as beside, beside.open("wb") as file:
        return write_file(book, file)


def import_file(book: Book, path: Path, *, admit: Admit = as_they_are) -> Merged:
    """Take in all entries of a file, or none.

    Parameters
    ----------
    admit : callable
        Looks at the entries on their way in, and raises where one is not to be.

    Raises
    ------
    BookError
        For a file that cannot be read, is damaged, is no book, or was made
        by a newer Evenstand; it says where.
    """
    try:
        with path.open("rb") as file:
            return book.merge(admit(book, read_file(file)))
    except OSError as refused:
        raise BookError("file", str(path), unusable(refused)) from None


def write_file(book: Book, file: BinaryIO) -> int:
    """Write all entries of a book; two books alike give the same bytes."""
    hashed, number = hashlib.sha256(), 0
    with ZipFile(file, "w") as packed:
        member = packed.open(_member(ENTRIES), "w", force_zip64=True)
        with member as lines, book.all_entries() as entries:
            for number, entry in enumerate(entries, 1):  # noqa: B007
                line = _line(entry)
                hashed.update(line)
                lines.write(line)
        manifest = Manifest(entries=number, sha256=hashed.hexdigest())
        packed.writestr(_member(MANIFEST), msgspec.json.format(msgspec.json.encode(manifest)))
    return number


def read_file(file: BinaryIO, *, most: int = MOST_UNPACKED) -> Iterator[Entry]:
    """Yield the entries of a file, and raise at its end unless it was whole.

    Parameters
    ----------
    most : int
        Bytes that it may unpack to.

    Raises
    ------
    BookError
        Naming the line; nothing that was yielded must then be kept.
    """
    try:
        with ZipFile(file) as packed:
            manifest = _manifest(packed)
            with _open(packed, ENTRIES) as lines:
                limit = min(most, max(MOST_MANIFEST, file.seek(0, 2) * MOST_PACKING))
                yield from _entries(lines, manifest, limit=limit)
    except BookError:
        raise
    except _DAMAGE as refused:
        raise _not_a_book(str(refused)) from None


def _entries(lines: IO[bytes], manifest: Manifest, *, limit: int) -> Iterator[Entry]:
    hashed, number = hashlib.sha256(), 0
    for number, line in _lines(lines, limit=limit):
        hashed.update(line)
        yield _entry(line, number)
    if number != manifest.entries:
        raise _damaged(number + 1, b"", say("{n} entries should be here", n=manifest.entries))
    if hashed.hexdigest() != manifest.sha256:
        raise BookError(ENTRIES, hashed.hexdigest(), say("its hash does not match the manifest"))


def _lines(lines: IO[bytes], *, limit: int) -> Iterator[tuple[int, bytes]]:
    """Yield lines with their numbers, as far as a file may unpack."""
    unpacked = 0
    for number in count(1):
        try:
            line = lines.readline(MOST_LINE)
        except _DAMAGE as refused:
            raise _damaged(
                number, b"", say("it cannot be unzipped: {said}", said=str(refused))
            ) from None
        if not line:
            return
        unpacked += len(line)
        if unpacked > limit:
            raise _damaged(number, line, say("the unzipped file is larger than any book"))
        if not line.endswith(b"\n"):
            raise _damaged(number, line, say("it is too long or cut off"))
        yield number, line


def _entry(text: bytes, number: int) -> Entry:
    if is_too_deep(text):
        raise _damaged(number, text, say("it is nested too deeply"))
    try:
        line = msgspec.json.decode(text, type=EntryLine)
        entry = read(bytes(line.entry))
    except BookError as refused:
        field = f"{ENTRIES} line {number}: {refused.field}"
        raise BookError(field, refused.given, refused.need) from None
    except (msgspec.MsgspecError, UnicodeError) as refused:
        raise _damaged(
            number, text, say("this is not an entry: {said}", said=str(refused))
        ) from None
    if line.crc32 != _crc(bytes(line.entry)):
        raise _damaged(number, text, say("this is not what was saved: its CRC-32 does not match"))
    return entry


def _manifest(packed: ZipFile) -> Manifest:
    with _open(packed, MANIFEST) as member:
        text = member.read(MOST_MANIFEST)
    if is_too_deep(text):
        raise _not_a_book(f"{MANIFEST} is nested too deep")
    try:
        manifest = msgspec.json.decode(text, type=Manifest)
    except (msgspec.MsgspecError, UnicodeError) as refused:
        raise _not_a_book(str(refused)) from None
    if manifest.format > FILE_FORMAT:
        need = say(
            "open it with Evenstand {release} or newer: this version reads the "
            "format only up to {known}",
            release=manifest.release,
            known=FILE_FORMAT,
        )
        raise BookError("format", manifest.format, need)
    return manifest


def _open(packed: ZipFile, name: str) -> IO[bytes]:
    if name not in packed.namelist():
        raise _not_a_book(f"no {name}")
    info = packed.getinfo(name)
    if info.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
        raise _not_a_book(f"{name} is packed in a way that is not read here")
    return packed.open(info)


def _member(name: str) -> ZipInfo:
    member = ZipInfo(name)  # of 1980: two books alike are two files alike
    member.compress_type = ZIP_DEFLATED
    return member


def _line(entry: Entry) -> bytes:
    text = entry.text.encode()
    return msgspec.json.encode(EntryLine(_crc(text), Raw(text))) + b"\n"


def _crc(text: bytes) -> str:
    return f"{zlib.crc32(text):08x}"


def _damaged(number: int, line: bytes, need: Phrase) -> BookError:
    given = line[:60].decode(errors="replace")
    return BookError(
        f"{ENTRIES} line {number}", given, say("choose a complete file: {need}", need=need)
    )


def _not_a_book(said: str) -> BookError:
    need = say("choose a complete book export file: {said}", said=said)
    return BookError("file", None, need)
