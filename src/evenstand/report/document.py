"""A document to show: headings, facts, tables, working, drawings, photos, lines to sign on.

All in it is written already, in its reader's words and units, so that a page,
a PDF and a program's JSON cannot tell different numbers.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar, Literal, TypeAlias

from .json import Document as Json

Kind = Literal["record", "worksheet", "card", "season"]


@dataclass(frozen=True)
class Cell:
    """A text, and the quantity that it tells, as JSON has it."""

    text: str
    quantity: Json | None = None


@dataclass(frozen=True)
class Fact:
    """A name and what is known of it; ``missing`` says that nobody wrote it down."""

    name: str
    cell: Cell
    missing: bool = False


@dataclass(frozen=True)
class Facts:
    """Facts below each other."""

    kind: ClassVar = "facts"

    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class Words:
    """A paragraph; a quiet one is small."""

    kind: ClassVar = "words"

    text: str
    quiet: bool = False


@dataclass(frozen=True)
class Points:
    """Sentences as a list."""

    kind: ClassVar = "points"

    points: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows under their heads: names in the first column, numbers in all others.

    ``words`` are columns of words, counted from 0, beside the first.
    """

    kind: ClassVar = "table"

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    words: tuple[int, ...] = ()


@dataclass(frozen=True)
class WorkLine:
    """A line of arithmetic: what it is, its sum, what it comes to."""

    text: str
    sum: str
    value: Cell


@dataclass(frozen=True)
class Work:
    """Lines of arithmetic, and what they go after."""

    kind: ClassVar = "work"

    lines: tuple[WorkLine, ...]
    sources: str


@dataclass(frozen=True)
class Drawing:
    """A drawing as SVG; ``told`` says what is to be seen."""

    kind: ClassVar = "drawing"

    svg: str
    told: str
    caption: str = ""


@dataclass(frozen=True)
class Code:
    """A code to scan, as SVG, and the address in it."""

    kind: ClassVar = "code"

    svg: str
    told: str
    address: str


@dataclass(frozen=True)
class Picture:
    """A photo of the book."""

    kind: ClassVar = "picture"

    id: str
    media: str
    data: bytes
    told: str


@dataclass(frozen=True)
class Signatures:
    """Lines to sign on; each is told what stands under it."""

    kind: ClassVar = "signatures"

    lines: tuple[str, ...]
    day: str


Block: TypeAlias = Facts | Words | Points | Table | Work | Drawing | Code | Picture | Signatures


@dataclass(frozen=True)
class Section:
    """A part of a document under its heading."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, kw_only=True)
class Document:
    """What is shown, from the top.

    ``lead`` is what matters most. ``made`` is when the newest entry in it was
    made: nothing in a document depends on the clock. ``page_of`` is written at
    the foot of each page, with ``{page}`` and ``{pages}`` in it.
    """

    kind: Kind
    title: str
    about: str
    lead: str
    facts: tuple[Fact, ...]
    sections: tuple[Section, ...]
    foot: tuple[str, ...]
    made: datetime
    made_in_words: str
    author: str
    language: str
    page_of: str
    invented: str = ""

    @property
    def pictures(self) -> Iterator[Picture]:
        """All photos in it."""
        blocks = (block for section in self.sections for block in section.blocks)
        return (block for block in blocks if isinstance(block, Picture))
