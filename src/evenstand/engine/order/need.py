"""Seed that a job needs of one species: field, overlap, what stays in the box, catches."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Annotated

from ..boxes.density import Filling
from ..boxes.filled import FilledBox
from ..quantities.errors import MeasurementError, Of, Path, require_positive, require_share
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LOAD, RATE, SHARE
from ..quantities.working import Line, added
from ..statistics.budget import Estimate, Quantity, Share, budget, estimate, nominal, uncertain
from ..statistics.distributions import t_quantile
from ..statistics.elementary import exp

# A lever accepted at odds of 9 in 10 to be within 5 % leaves about this much: 5 % ÷ 1.645.
RATE_SPREAD = 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderJob:
    """The ground to sow, and what more than its rate goes out of the bags.

    Parameters
    ----------
    area : Quantity
        Of the field. [m²]
    overlap : Quantity
        Ground sown twice, as a share of the field. [-]
    catches : mapping of str to float
        By box, seed of calibration that does not go back into it. [kg]
    heels : mapping of str to Quantity
        By box, seed that stays in it at the end; the box's dead part of its
        volume where not given. [kg]
    rate_spread : float
        Relative standard uncertainty of the rate that a box will really have;
        it is common to all species in the box. [-]

    Raises
    ------
    MeasurementError
        For an area not above zero, an overlap outside 0 to 1, or seed below
        zero.
    """

    area: Quantity
    overlap: Quantity = 0.0
    catches: Mapping[str, float] | None = None
    heels: Mapping[str, Quantity] | None = None
    rate_spread: float = RATE_SPREAD

    def __post_init__(self) -> None:
        require_positive("area", nominal(self.area), "m²")
        require_share("overlap", nominal(self.overlap))
        require_share("rate_spread", self.rate_spread)
        for field, seed in (("catches", self.catches), ("heel", self.heels)):
            for box, weight in (seed or {}).items():
                if not nominal(weight) >= 0:
                    need = say("enter a weight of 0 or more")
                    raise MeasurementError(Path(field, Of(box)), nominal(weight), need)

    @property
    def ground(self) -> Annotated[Quantity, FIELD]:
        """Ground that gets seed, overlap twice. [m²]"""
        return self.area * (1 + self.overlap)

    def heel(self, filled: FilledBox) -> Quantity:
        """Seed that stays in a box. [kg]"""
        given = (self.heels or {}).get(filled.box.name)
        return filled.heel if given is None else given

    def caught(self, filled: FilledBox) -> float:
        """Seed of catches from a box. [kg]"""
        return (self.catches or {}).get(filled.box.name, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What is needed of one species or carrier. [kg]

    ``total`` = ``field`` + ``overlap`` + ``heel`` + ``catches``, with its
    range in ``range``.
    """

    name: str
    box: str
    field: Annotated[Quantity, LOAD]
    overlap: Annotated[Quantity, LOAD]
    heel: Annotated[Quantity, LOAD]
    catches: Annotated[float, LOAD]
    working: tuple[Line, ...]

    @property
    def total(self) -> Quantity:
        """All of it. [kg]"""
        return self.field + self.overlap + self.heel + self.catches

    @property
    def shares(self) -> tuple[Share, ...]:
        """Where its uncertainty comes from."""
        return budget(self.total, {})

    @property
    def range(self) -> Annotated[Estimate, LOAD]:
        """The total with its range. [kg]"""
        return estimate(self.total, self.shares)


def box_needs(filled: FilledBox, job: OrderJob) -> tuple[Need, ...]:
    """Work out what is needed of each thing in a box.

    need = rate × area × (1 + overlap) + its part of the heel and the catches

    Returns
    -------
    tuple of Need [kg]
    """
    really = uncertain(1.0, job.rate_spread, f"rate of {filled.box.name}")
    return tuple(_need(part, filled, job, really=really) for part in filled.filling)


def together(needs: Sequence[Need]) -> tuple[Need, ...]:
    """Add up what goes into several boxes under one name, such as a carrier."""
    found: dict[str, Need] = {}
    for each in needs:
        found[each.name] = _add(found[each.name], each) if each.name in found else each
    return tuple(found.values())


def _add(one: Need, other: Need) -> Need:
    return Need(
        name=one.name,
        box=f"{one.box}, {other.box}",
        field=one.field + other.field,
        overlap=one.overlap + other.overlap,
        heel=one.heel + other.heel,
        catches=one.catches + other.catches,
        working=one.working + other.working,
    )


def _need(part: Filling, filled: FilledBox, job: OrderJob, *, really: Quantity) -> Need:
    share = filled.shares[part.name]
    in_field = part.weighed * job.area * really
    heel = job.heel(filled) * share
    catches = job.caught(filled) * share
    return Need(
        name=part.name,
        box=filled.box.name,
        field=in_field,
        overlap=in_field * job.overlap,
        heel=heel,
        catches=catches,
        working=_lines(part, job, heel=nominal(heel), catches=catches),
    )


def _lines(part: Filling, job: OrderJob, *, heel: float, catches: float) -> tuple[Line, ...]:
    area, overlap = nominal(job.area), nominal(job.overlap)
    in_field = part.weighed * area
    first = Line(
        say("{name} on the field: rate × area", name=part.name),
        LOAD(in_field),
        RATE(part.weighed) * FIELD(area),
    )
    parts = [in_field, in_field * overlap, heel, catches]
    text = "{name} total: field + {overlap} overlap + left in box + catches"
    whole = 0.0
    for each in parts:
        whole = whole + each
    last = Line(
        say(text, name=part.name, overlap=SHARE(overlap)), LOAD(whole), added(map(LOAD, parts))
    )
    return first, last


def enough_at(need: Estimate, odds: float) -> float:
    """Weight that is enough with the given odds.

    value + t(odds, ν) × u, on the log scale where the range is made there

    Parameters
    ----------
    need : Estimate
        [kg]
    odds : float
        From 1 in 2 to below 1. [-]

    Returns
    -------
    float [kg]

    Raises
    ------
    MeasurementError
        For odds outside that.
    """
    if not 0.5 <= odds < 1:
        raise MeasurementError("odds", odds, say("enter odds from 50% to below 100%"))
    reach = t_quantile(odds, dof=need.dof) * need.u
    return need.value * exp(reach / need.value) if need.log_scale else need.value + reach


def require_known(field: str, given: Sequence[str], names: Sequence[str]) -> None:
    """Raise MeasurementError for a name that is not among the known ones."""
    for name in given:
        if name not in names:
            need: Phrase = say("choose one of {names}", names=", ".join(names))
            raise MeasurementError(field, name, need)
