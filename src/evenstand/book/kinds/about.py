"""What the book says of itself: its name, and how those who share it read."""

from typing import Annotated, ClassVar, Literal

from msgspec import Meta

from evenstand.engine.quantities.phrases import say

from .shape import Body, Text

ShortName = Annotated[str, Meta(max_length=200)]
Language = Annotated[
    str, Meta(pattern="^([a-z]{2,3})?$", description="ISO 639, empty where none is chosen")
]


class About(Body, frozen=True):
    """Units, language and decimal sign of those who share the book, unless their device differs.

    Two books that were swapped may have one each: the newest entry counts.
    """

    kind: ClassVar = "book"
    name: Annotated[ShortName, say("Book name")] = ""
    units: Annotated[Literal["", "us", "metric"], say("Units")] = ""
    language: Annotated[Language, say("Language")] = ""
    decimal: Annotated[Literal["", "point", "comma"], say("Decimal sign")] = ""
    note: Annotated[Text, say("Note")] = ""
