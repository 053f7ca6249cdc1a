"""What stands beside the fields of a body, told once: what one measures, whether it may be 0.

    overlap: Annotated[Typed | None, u.SHARE, OR_ZERO] = None

Forms, files, tables and the API are made of it. Beside the type may stand, in
any order:

- a `Kind`, what an amount or a count measures, or `By` and `BY_SIGN`, which find it;
- `OR_ZERO`, for an amount that may be 0; all others are above it;
- `AS_IT_STANDS`, for an amount without ±;
- `Within`, the limits of a share;
- `Key`, its name in forms and job files, where that is another one;
- `Unless`, its name in forms, where they ask for its opposite;
- a `Phrase`, the heading of its column.
"""

from collections.abc import Callable, Mapping
from enum import Enum
from functools import cache
from typing import Annotated, Any, TypeAlias, get_args, get_origin

from msgspec import NODEFAULT, Meta, Struct
from msgspec.structs import fields

from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import DENSITY, NUMBER, RATE, SEED_WEIGHT, SHARE, Kind

THOUSAND = 1000  # seeds: what they weigh is kept for all of them together


class Mark(Enum):
    """What can be said of an amount in a word."""

    OR_ZERO = "0 or more"
    AS_IT_STANDS = "without ±"
    BY_SIGN = "a share where it is written with %, else a number"


OR_ZERO, AS_IT_STANDS, BY_SIGN = Mark.OR_ZERO, Mark.AS_IT_STANDS, Mark.BY_SIGN


class By(Struct, frozen=True):
    """The basis that stands in a field beside it says what an amount measures."""

    field: str


BASES: Mapping[str, Kind] = {
    "of full rate": SHARE,
    "live seeds": DENSITY,
    "pls": RATE,
    "bulk": RATE,
}


class Within(Struct, frozen=True):
    """The limits of a share, below the upper one unless it is ``whole``; what is asked for."""

    low: float
    high: float
    need: Phrase
    whole: bool = False

    def __contains__(self, share: float) -> bool:
        return self.low <= share < self.high or (self.whole and share == self.high)


class Key(Struct, frozen=True):
    """What a field is called where it is typed."""

    name: str


class Unless(Struct, frozen=True):
    """What the opposite of a field is called in forms."""

    name: str


Measure: TypeAlias = Kind | By | Mark | None


class Detail(Struct, frozen=True, kw_only=True):
    """A field of a body with what stands beside it.

    ``type`` is without None and without what stands beside it, ``part`` the
    struct in it, ``many`` whether there may be several.
    """

    name: str
    key: str
    type: Any
    default: Any
    optional: bool
    part: type[Struct] | None
    many: bool
    measure: Measure
    zero: bool
    exact: bool
    within: Within | None
    unless: str
    label: Phrase | None

    @property
    def needed(self) -> bool:
        """Whether it must be there."""
        return self.default is NODEFAULT

    @property
    def of(self) -> int:
        """Things that its value is of, where its kind is of one."""
        return THOUSAND if self.measure is SEED_WEIGHT else 1

    def kind(self, text: str, beside: Callable[[str], str]) -> Kind:
        """Return what an amount measures.

        Parameters
        ----------
        text : str
            As it was written.
        beside : callable
            Returns what stands in another field.
        """
        if isinstance(self.measure, By):
            return BASES.get(beside(self.measure.field), RATE)
        if isinstance(self.measure, Kind):
            return self.measure
        return SHARE if "%" in text and self.measure is BY_SIGN else NUMBER


@cache
def details(known: type[Struct]) -> tuple[Detail, ...]:
    """Return the fields of a struct, in their order; they are looked at when first asked for."""
    return tuple(_detail(each.name, each.type, each.default) for each in fields(known))


@cache
def detail(known: type[Struct], name: str) -> Detail:
    """Return one field of a struct."""
    return next(each for each in details(known) if each.name == name)


def _detail(name: str, hint: Any, default: Any) -> Detail:
    bare, beside = _apart(hint)
    inner = [each for each in get_args(bare) if each is not type(None)]
    optional = type(None) in get_args(bare)
    own = inner[0] if optional else bare
    measures = (each for each in beside if isinstance(each, Kind | By) or each is BY_SIGN)
    part = _part(own)
    return Detail(
        name=name,
        key=next((each.name for each in beside if isinstance(each, Key)), name),
        type=own,
        default=default,
        optional=optional,
        part=part,
        many=get_origin(own) is tuple,
        measure=next(measures, None),
        zero=OR_ZERO in beside,
        exact=AS_IT_STANDS in beside,
        within=next((each for each in beside if isinstance(each, Within)), None),
        unless=next((each.name for each in beside if isinstance(each, Unless)), ""),
        label=next((each for each in beside if isinstance(each, Phrase)), None),
    )


def _apart(hint: Any) -> tuple[Any, tuple[Any, ...]]:
    """Take a type apart from what stands beside it; limits of msgspec stay with it."""
    if get_origin(hint) is not Annotated:
        return hint, ()
    plain, *beside = get_args(hint)
    metas = [each for each in beside if isinstance(each, Meta)]
    for meta in metas:
        plain = Annotated[plain, meta]
    return plain, tuple(beside)


def _part(own: Any) -> type[Struct] | None:
    for each in (own, *get_args(own)):
        if isinstance(each, type) and issubclass(each, Struct):
            return each
    return None
