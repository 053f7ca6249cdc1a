"""What bodies are made of: amounts as typed, names, ids.

A field that is left out has its default; a default never changes from one
release to the next, because it stands in books that are already written.
Whether numbers make sense together is asked where they are used.
"""

from typing import Annotated, ClassVar

from msgspec import Meta, Struct

from .identity import ID

END = r"$(?!\n)"  # to Python's $ alone a last line break is nothing
Id = Annotated[str, Meta(pattern=f"^{ID}{END}", description="UUID, version 7")]
MOST_NAME, MOST_TEXT = 200, 10_000  # characters
Name = Annotated[str, Meta(min_length=1, max_length=MOST_NAME)]
Text = Annotated[str, Meta(max_length=MOST_TEXT)]
Count = Annotated[int, Meta(ge=0, le=1_000_000_000)]
Some = Annotated[int, Meta(ge=1, le=1_000_000_000)]
Share = Annotated[float, Meta(ge=0, le=1, description="a share, 5% is 0.05")]
_MONTH = "(?!0000)[0-9]{4}-(0[1-9]|1[0-2])"
Day = Annotated[
    str, Meta(pattern=f"^{_MONTH}-(0[1-9]|[12][0-9]|3[01]){END}", description="year-month-day")
]
Month = Annotated[str, Meta(pattern=f"^{_MONTH}{END}", description="year-month")]


class Part(Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A part of a body."""


class Body(Part, frozen=True, kw_only=True, omit_defaults=True):
    """What an entry says, of one kind."""

    kind: ClassVar[str]


class Typed(Part, frozen=True):
    """An amount as it was typed, and what it is in SI."""

    value: float
    give_or_take: Annotated[float, Meta(ge=0)] = 0.0
    text: Text = ""
