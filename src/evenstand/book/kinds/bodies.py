"""What an entry says: one type for each kind."""

from typing import Annotated, ClassVar, Literal, TypeAlias

from msgspec import Meta, Struct

from .about import About
from .frozen import Frozen
from .machine import Chart, Drill
from .seed import GerminationTest, Lot, Mix, SeedCount
from .shape import Body, Id, Text
from .sown import Check, Finished, Ground, Level, Load, Moved
from .work import Catch, Chosen, Field, Job, Note, Order, Record, Split, StandCount, StandWish

MOST_PHOTO = 512 * 1024  # bytes


class Photo(Body, frozen=True):
    """A picture of a thing, such as the tag of a lot."""

    kind: ClassVar = "photo"
    of: Id
    media: Literal["image/jpeg", "image/png", "image/webp"]
    data: Annotated[bytes, Meta(max_length=MOST_PHOTO)]
    caption: Text = ""


class Removal(Body, frozen=True):
    """The thing is no longer wanted."""

    kind: ClassVar = "removal"


class Newer(Struct, frozen=True):
    """What a newer Evenstand wrote and this one cannot read: it is kept and carried on."""

    kind: str
    text: str


KINDS: dict[str, type[Body]] = {
    body.kind: body
    for body in (
        *(Drill, Chart, Field, Lot, SeedCount, GerminationTest, Mix, Job, Split, Order),
        *(Load, Level, Ground, Moved, Check, Finished, Frozen),
        *(Catch, Chosen, StandCount, StandWish, Record, Note, Photo, About, Removal),
    )
}
Content: TypeAlias = Body | Newer

_LINKS = ("job", "drill", "field", "mix", "lot", "of")


def links(content: Content) -> frozenset[str]:
    """Return the ids of the things that a body names."""
    found = [getattr(content, name, None) for name in _LINKS]
    found += [member.lot for member in content.members] if isinstance(content, Mix) else []
    return frozenset(each for each in found if isinstance(each, str))
