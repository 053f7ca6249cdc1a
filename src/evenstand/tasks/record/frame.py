"""The frame of every document: who reads it, what stands at its head and foot."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from evenstand.engine.drill.safety import BEFORE_TURNING
from evenstand.engine.quantities.phrases import Phrase, Style, Value, say
from evenstand.report.document import Block, Fact, Kind, Points, Printed, Section
from evenstand.report.pen import Pen

RANGES = say("Numbers in parentheses are the 95% range: 19 times in 20 it includes the true value.")
INVENTED = say(
    "Demo book, made up: the Tamarack Flats drill pool. None of these drills, "
    "fields or catches exist."
)


@dataclass(frozen=True, kw_only=True)
class Reader:
    """For whom a document is written, and whether its book is the invented demo."""

    style: Style
    language: str = "en"
    invented: bool = False

    @property
    def pen(self) -> Pen:
        """What writes for this reader."""
        return Pen(self.style)

    def section(self, title: Value, *blocks: Block) -> Section:
        """Put blocks under a heading."""
        return Section(self.pen.write(title), blocks)

    def document(
        self,
        kind: Kind,
        *,
        title: Phrase,
        about: str,
        lead: Phrase,
        facts: Sequence[Fact],
        sections: Sequence[Section],
        foot: Sequence[Phrase],
        made: datetime,
        author: str = "",
    ) -> Printed:
        """Put a document together."""
        pen = self.pen
        return Printed(
            kind=kind,
            title=pen.write(title),
            about=about,
            lead=pen.write(lead),
            facts=tuple(facts),
            sections=tuple(sections),
            foot=tuple(pen.write(each) for each in foot),
            made=made,
            made_in_words=pen.write(say("From the book as of {at} UTC.", at=made)),
            author=author,
            language=self.language,
            page_of=pen.write(say("page {page} of {pages}", page="{page}", pages="{pages}")),
            invented=pen.write(INVENTED) if self.invented else "",
        )


def before_turning(reader: Reader) -> Section:
    """Say what to do before the first turn of the wheel."""
    lines = tuple(map(reader.pen.write, BEFORE_TURNING))
    return reader.section(say("Before you turn the wheel"), Points(lines, alert=True))
