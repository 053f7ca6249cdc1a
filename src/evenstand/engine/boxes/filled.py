"""What one box carries: its rate to set, what it holds, and what it gives up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum
from typing import Annotated

from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LOAD, RATE, TEST_WEIGHT, VOLUME
from ..quantities.working import Line, added
from ..quantities.written import put
from ..seed.size_class import CLASS_WORDS
from ..statistics.budget import Estimate, Quantity, nominal, ranged
from .box import Box, fit
from .compromise import Compromise
from .density import Filling, Packed, lacking, measured_weight, mixture
from .depth import BoxDepth, common_depth, depth_compromise
from .portion import Portion
from .sorting_risk import Risk, cures, risks, sorting_compromises


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledBox:
    """One box and the seed that goes in it.

    ``packed`` is None where a test weight is missing: then nobody knows what
    the box holds. ``compromises`` leave the depth out where other boxes share
    the openers; the split says it then.
    """

    KEYS = (
        *(put("name", "box", "name"), put("species", "portions", "name")),
        *(put("carrier", "box", "carrier", "name"), put("rate", "metered"), "holds"),
        *(put("per_fill", "per_load"), put("depth", "depth", "depth"), "risks", "cures"),
        *("compromises", "missing"),
    )

    box: Box
    portions: tuple[Portion, ...]
    packed: Packed | None
    depth: BoxDepth | None
    risks: tuple[Risk, ...]
    cures: tuple[Phrase, ...]
    compromises: tuple[Compromise, ...]

    @property
    def filling(self) -> tuple[Filling, ...]:
        """All that goes in, carrier last."""
        carrier = self.box.carrier
        return (*self.portions, carrier) if carrier and self.portions else self.portions

    @property
    def rate(self) -> float:
        """Bulk rate to set this box to, carrier inside it. [kg/m²]"""
        return fsum(part.weighed for part in self.filling)

    @property
    def metered(self) -> Annotated[float, RATE] | None:
        """Its rate, None without seed in it. [kg/m²]"""
        return self.rate if self.portions else None

    @property
    def shares(self) -> Mapping[str, float]:
        """Share by weight of each part of what the box drops. [-]"""
        return {part.name: part.weighed / self.rate for part in self.filling}

    @property
    def sorts(self) -> bool:
        """Whether any of its seed is feared to sort."""
        return any(each.level != "little" for each in self.risks)

    @property
    def holds(self) -> Annotated[Quantity, LOAD] | None:
        """What flows out of a full box. [kg]"""
        return None if self.packed is None else self.packed.test_weight * self.box.usable

    @property
    def heel(self) -> Quantity:
        """What stays in it, so that the meters are covered; 0 where unknown. [kg]"""
        if self.packed is None:
            return 0.0
        return self.packed.test_weight * self.box.volume * self.box.dead

    @property
    def per_load(self) -> Annotated[Estimate, FIELD] | None:
        """Ground that one fill sows. [m²]"""
        if self.holds is None:
            return None
        return ranged(self.holds / self.rate)

    @property
    def working(self) -> tuple[Line, ...]:
        """The lines from rates to the ground that a fill sows."""
        return (_rate_line(self), *_fill_lines(self)) if self.portions else ()

    @property
    def missing(self) -> Phrase | None:
        """What to weigh so that a fill can be told, if anything."""
        if self.packed is not None or not self.portions:
            return None
        names = ", ".join(lacking(self.filling))
        text = "weigh a full measure of {names}, or of the mix: we don't know how much {box} holds"
        return say(text, names=names, box=self.box.name)


def fill_box(
    box: Box,
    portions: Sequence[Portion],
    *,
    elsewhere: Mapping[str, Sequence[str]] | None = None,
    mixed_weight: Quantity | None = None,
) -> FilledBox:
    """Look at what some seed means to a box.

    Parameters
    ----------
    portions : sequence of Portion
        Seed that it can take; none leaves it empty.
    elsewhere : mapping of str to sequence of str, optional
        For each seed, other boxes that could take it.
    mixed_weight : Quantity, optional
        Measured test weight of the mixture itself. [kg/m³]
    """
    portions = tuple(portions)
    depth, feared = common_depth(portions), risks(portions)
    bare = FilledBox(
        box=box,
        portions=portions,
        packed=None,
        depth=depth,
        risks=feared,
        cures=_cures(feared, elsewhere or {}),
        compromises=(),
    )
    return replace(
        bare,
        packed=_packed(bare.filling, mixed_weight),
        compromises=(
            *_misfits(box, portions),
            *sorting_compromises(feared),
            *(depth_compromise(depth) if box.own_depth else ()),
            *_rate_compromise(box, bare.rate),
        ),
    )


def _cures(feared: Sequence[Risk], elsewhere: Mapping[str, Sequence[str]]) -> tuple[Phrase, ...]:
    if not feared:
        return ()
    return cures(feared[0], elsewhere=elsewhere.get(feared[0].small, ()))


def _packed(filling: Sequence[Filling], mixed_weight: Quantity | None) -> Packed | None:
    if mixed_weight is not None:
        return measured_weight(mixed_weight)
    return mixture(filling) if filling and not lacking(filling) else None


def _misfits(box: Box, portions: Sequence[Portion]) -> tuple[Compromise, ...]:
    return tuple(
        Compromise(
            about="class",
            grade=2,
            say=say(
                "{seed} is {class_}, and {box} is not built for it",
                seed=each.name,
                class_=CLASS_WORDS[each.sized.seed_class],
                box=box.name,
            ),
        )
        for each in portions
        if fit(box, each) == "makes do"
    )


def outside(box: Box, rate: float) -> bool:
    """Whether a box cannot meter a rate; 0 is an empty box.

    Parameters
    ----------
    rate : float
        [kg/m²]
    """
    low = box.least is not None and rate < box.least
    return rate > 0 and (low or (box.most is not None and rate > box.most))


def _rate_compromise(box: Box, rate: float) -> tuple[Compromise, ...]:
    if not outside(box, rate):
        return ()
    if box.least is not None and rate < box.least:
        limit = box.least
        text = "{rate} is less than the {limit} {box} can meter: mix in a carrier"
    else:
        limit = box.most or 0.0
        text = "{rate} is more than the {limit} {box} can meter: seed it in two passes"
    words = say(text, rate=RATE(rate), limit=RATE(limit), box=box.name)
    return (Compromise(about="rate", grade=3, say=words),)


def _rate_line(filled: FilledBox) -> Line:
    names = ", ".join(part.name for part in filled.filling)
    return Line(
        say("Target rate for {box}: {names}", box=filled.box.name, names=names),
        RATE(filled.rate),
        added(RATE(part.weighed) for part in filled.filling),
    )


def _fill_lines(filled: FilledBox) -> tuple[Line, ...]:
    if filled.packed is None or filled.holds is None:
        return ()
    weight, usable = nominal(filled.packed.test_weight), nominal(filled.box.usable)
    holds = nominal(filled.holds)
    return (
        *filled.packed.working,
        Line(
            say("What a full box puts out: usable volume × test weight"),
            LOAD(holds),
            VOLUME(usable) * TEST_WEIGHT(weight),
        ),
        Line(
            say("Area one fill covers: capacity ÷ rate"),
            FIELD(holds / filled.rate),
            LOAD(holds) / RATE(filled.rate),
        ),
    )
