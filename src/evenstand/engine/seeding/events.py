"""What happens to one box while a field is sown, in the order of the area meter."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, sqrt
from typing import TypeAlias

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, SHARE
from ..statistics.budget import Quantity, nominal, standard_uncertainty
from .level import SQRT_THREE, InBox

LABEL_LIMITS = 0.01  # judgement: net weight of a bag against its label
BUCKET_LIMITS = 0.005  # judgement: a bucket weighed at the edge of the field
TOTE_LIMITS = 0.01  # judgement: a tote by its ticket


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """Seed put into the box, by weight. ``at`` is what the area meter shows. [m²], [kg]"""

    at: float
    weight: float
    u: float
    assumed: tuple[Phrase, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """Seed that is in the box, as read. [m²], [kg]"""

    at: float
    seed: InBox


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The box filled up to a mark with seed that nobody weighed. [m²], [kg]"""

    at: float
    seed: InBox


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A lever moved on the way: ``factor`` is new rate ÷ old. [m²], [-]

    ``setting`` is where the lever stands from here.
    """

    at: float
    factor: Quantity
    setting: float


Event: TypeAlias = Load | Level | Fill | Change


def bags(at: float, *, count: float, weight: float) -> Load:
    """Bags poured in, by the net weight on their label.

    Parameters
    ----------
    at : float
        What the area meter shows. [m²]
    count : float
        Bags; half a one may be. [-]
    weight : float
        Net seed in one. [kg]

    Raises
    ------
    MeasurementError
        For no bags, or bags without a weight.

    Notes
    -----
    Each bag is taken to hold its label's weight to ± 1%, bags apart.
    """
    require_positive("count", count, "bags")
    _require_weight(weight)
    text = "a bag's label weight is good to ± {limits}"
    u = LABEL_LIMITS * weight * sqrt(count) / SQRT_THREE
    said = (say(text, limits=SHARE(LABEL_LIMITS)),)
    return Load(at=at, weight=count * weight, u=u, assumed=said)


def weighed(at: float, weight: Quantity, *, tote: bool = False) -> Load:
    """Seed weighed into the box: buckets, or a tote by its ticket.

    Parameters
    ----------
    at : float
        What the area meter shows. [m²]
    weight : Quantity
        Net; without an uncertainty known to ± 0.5%, a tote to ± 1%. [kg]
    tote : bool
        Whether it came in a tote.

    Raises
    ------
    MeasurementError
        For a weight that is missing or not above zero.
    """
    _require_weight(nominal(weight))
    u = standard_uncertainty(weight)
    if u:
        return Load(at=at, weight=nominal(weight), u=u)
    limits = TOTE_LIMITS if tote else BUCKET_LIMITS
    text = "a tote's ticket weight is good to ± {limits}"
    if not tote:
        text = "seed weighed at the field is good to ± {limits}"
    said = (say(text, limits=SHARE(limits)),)
    return Load(
        at=at, weight=nominal(weight), u=limits * nominal(weight) / SQRT_THREE, assumed=said
    )


def in_order(events: Sequence[Event]) -> tuple[Event, ...]:
    """Check that events run along the acres, and begin with a level or a load.

    Raises
    ------
    MeasurementError
        For none, an area that is no number or goes backwards, or a lever
        moved before there was seed.
    """
    if not events:
        raise MeasurementError("events", (), say("enter the first load in the box"))
    before = 0.0
    for event in events:
        if not (isfinite(event.at) and event.at >= 0):
            raise MeasurementError("at", event.at, say("enter what the acre meter shows"))
        if event.at < before:
            need = say(
                "the area went backward from {before}: enter the meter readings in order",
                before=FIELD(before),
            )
            raise MeasurementError("at", event.at, need)
        before = event.at
    if isinstance(events[0], Change):
        raise MeasurementError("events", "change", say("enter the first load in the box"))
    return tuple(events)


def assumptions(events: Sequence[Event]) -> tuple[Phrase, ...]:
    """What was taken for granted in these events, each once."""
    said: list[Phrase] = []
    for event in events:
        own = event.seed.assumed if isinstance(event, Level | Fill) else ()
        own = event.assumed if isinstance(event, Load) else own
        said.extend(words for words in own if words not in said)
    return tuple(said)


def _require_weight(weight: float) -> None:
    if not weight > 0:
        raise MeasurementError("weight", weight, say("enter what the load weighed"))
