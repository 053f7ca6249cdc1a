"""A document to show: what matters most, facts, tables, working, drawings, lines to sign on.

All in it is written already, in its reader's words and units, so that a page,
a PDF and a program's JSON cannot tell different numbers.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar, Literal, TypeAlias

from evenstand.engine.quantities.written import put

from .drawn import Drawn
from .json import Document as Json

Kind = Literal["record", "worksheet", "card", "season"]


@dataclass(frozen=True)
class Cell:
    """A text, and the quantity that it tells, as JSON has it."""

    KEYS = ("text", put("quantity", optional=True))

    text: str
    quantity: Json | None = None


@dataclass(frozen=True)
class Fact:
    """A name and what is known of it; ``missing`` says that nobody wrote it down."""

    KEYS = ("name", put("value", "cell"), "missing")

    name: str
    cell: Cell
    missing: bool = False


@dataclass(frozen=True)
class Facts:
    """Facts below each other."""

    kind: ClassVar = "facts"
    KEYS = (put("block", "kind"), "facts")

    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class Words:
    """A paragraph; a quiet one is small."""

    kind: ClassVar = "words"
    KEYS = (put("block", "kind"), "text", "quiet")

    text: str
    quiet: bool = False


@dataclass(frozen=True)
class Points:
    """Sentences as a list; those of an ``alert`` ask to be minded."""

    kind: ClassVar = "points"
    KEYS = (put("block", "kind"), "points")

    points: tuple[str, ...]
    alert: bool = False


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows under their heads: names in the first column, numbers in all others.

    ``words`` are columns of words, counted from 0, beside the first; ``units``
    stand under the heads, and ``foot`` under all rows, such as a total.
    """

    kind: ClassVar = "table"
    KEYS = (put("block", "kind"), "caption", "heads", "rows", "words")

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    words: tuple[int, ...] = ()
    units: tuple[str, ...] = ()
    foot: tuple[Cell, ...] = ()


@dataclass(frozen=True)
class WorkLine:
    """A line of arithmetic: what it is, its sum, what it comes to."""

    KEYS = ("text", "sum", "value")

    text: str
    sum: str
    value: Cell


@dataclass(frozen=True)
class Work:
    """Lines of arithmetic, and what they go after."""

    kind: ClassVar = "work"
    KEYS = (put("block", "kind"), "lines", "sources")

    lines: tuple[WorkLine, ...]
    sources: str


@dataclass(frozen=True)
class Drawing:
    """A drawing as SVG; ``told`` says what is to be seen."""

    kind: ClassVar = "drawing"
    KEYS = (put("block", "kind"), "svg", "told", "caption")

    svg: str
    told: str
    caption: str = ""


@dataclass(frozen=True)
class Code:
    """A code to scan, as SVG, and the address in it."""

    kind: ClassVar = "code"
    KEYS = (put("block", "kind"), "svg", "told", "address")

    svg: str
    told: str
    address: str


@dataclass(frozen=True)
class Picture:
    """A photo of the book."""

    kind: ClassVar = "picture"
    KEYS = (put("block", "kind"), "id", "media", "sha256", "told")

    id: str
    media: str
    data: bytes
    told: str

    @property
    def sha256(self) -> str:
        """Which photo it is: the hash of its bytes."""
        return hashlib.sha256(self.data).hexdigest()


@dataclass(frozen=True)
class Signatures:
    """Lines to sign on; each is told what stands under it."""

    kind: ClassVar = "signatures"
    KEYS = (put("block", "kind"), "lines", "day")

    lines: tuple[str, ...]
    day: str


Printable: TypeAlias = Facts | Words | Points | Table | Work | Drawing | Code | Picture | Signatures
Block: TypeAlias = Printable | Drawn


@dataclass(frozen=True)
class Section:
    """A part of a document under its heading, if it has one; ``about`` stands beside that."""

    KEYS = ("title", "blocks")

    title: str
    blocks: tuple[Block, ...]
    about: str = ""


@dataclass(frozen=True, kw_only=True)
class Document:
    """What is shown, from the top.

    ``lead`` is what matters most, and what ``also`` goes with it; ``notes``
    stand right below. The ``working`` is shown where it is asked for.
    """

    title: str = ""
    about: str = ""
    lead: str = ""
    also: str = ""
    notes: tuple[Block, ...] = ()
    facts: tuple[Fact, ...] = ()
    sections: tuple[Section, ...] = ()
    working: tuple[Section, ...] = ()
    foot: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Printed(Document):
    """A document to print and to hand on.

    ``made`` is when the newest entry in it was made: nothing in a document
    depends on the clock. ``sha256`` is that of the entries it was frozen with,
    empty where it is not finished. ``page_of`` is written at the foot of each page, with
    ``{page}`` and ``{pages}`` in it.
    """

    KEYS = (
        *(put("document", "kind"), "title", "about", "lead", "facts", "sections", "foot"),
        *(put("made", "made_at"), "made_in_words", "author", "language", "page_of", "invented"),
        "sha256",
    )

    kind: Kind
    made: datetime
    made_in_words: str
    author: str
    language: str
    page_of: str
    invented: str = ""
    sha256: str = ""

    @property
    def made_at(self) -> str:
        """When the newest entry in it was made, to the millisecond."""
        return self.made.isoformat(timespec="milliseconds")

    @property
    def pictures(self) -> Iterator[Picture]:
        """All photos in it."""
        blocks = (block for section in self.sections for block in section.blocks)
        return (block for block in blocks if isinstance(block, Picture))
