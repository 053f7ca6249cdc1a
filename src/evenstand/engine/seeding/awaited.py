"""The reading that is awaited: the first one, and the first after the lever was moved."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isinf, sqrt
from typing import Annotated

from ..catch.target import SURE, Verdict
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, RATE
from ..quantities.written import inside, put
from ..statistics.budget import Estimate, nominal, standard_uncertainty
from ..statistics.distributions import normal_quantile
from .balance import Balance, follow
from .events import Change, Event, Level
from .large import Large
from .level import READING_LIMITS, SQRT_THREE, WEIGHED_LIMITS, InBox
from .runout import NextLoad
from .steps import Writer


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What was found before the lever was moved; it counts until a reading answers it. [kg/m²]"""

    KEYS = (
        *("rate", put("verdict", "verdict", "word")),
        *inside(("verdict",), "odds_within", "odds_light", "odds_heavy"),
        "say",
    )

    rate: Annotated[Estimate, RATE]
    verdict: Verdict
    say: Phrase


@dataclass(frozen=True, slots=True, kw_only=True)
class Awaited:
    """When to read the box: ``ground`` from now on, ``at`` on the area meter. [m²]"""

    KEYS = ("ground", "at", "say")

    ground: Annotated[float, FIELD]
    at: Annotated[float, FIELD]

    @property
    def say(self) -> Phrase:
        """Say when to read the box."""
        if not self.ground:
            return say("Read the box now.")
        text = "Read the box after {ground} more, at {at} on the acre meter."
        return say(text, ground=FIELD(self.ground, 2), at=FIELD(self.at))

    @property
    def large(self) -> Large | None:
        """The same with the area large, None where it is now."""
        if not self.ground:
            return None
        after = say("on the acre meter, after {ground} more", ground=FIELD(self.ground, 2))
        return Large(say("Read the box at"), FIELD(self.at), (after,))


def unread(events: Sequence[Event]) -> int | None:
    """Return the place of the first moved lever that no reading has answered."""
    read = max((event.at for event in events if isinstance(event, Level)), default=-inf)
    found = (i for i, e in enumerate(events) if isinstance(e, Change) and e.at >= read)
    return next(found, None)


def await_reading(balance: Balance, *, until: NextLoad, holds: float = inf) -> Awaited:
    """Tell after how much ground a reading by itself tells the rate to its tolerance.

    ground = z₀.₉₅ · √(u²(seed in the box at the start) + u²(reading)) ÷ (tolerance · target)

    Parameters
    ----------
    until : NextLoad
        A box that may run low before is read when it does.
    holds : float
        What goes into the box, level full, where it is read by its mark; else it is weighed. [kg]

    Notes
    -----
    The start is the last moved lever, or the first load. A reading is as good
    as the last one, the first as one by eye or by weight is taken to be.
    """
    known, target, events = balance.known, balance.known.target, balance.events
    start = max((e.at for e in events if isinstance(e, Change)), default=events[0].at)
    begun = follow([event for event in events if event.at <= start], known)
    u = standard_uncertainty(begun.seed)
    variance = u * u + _reading_variance(begun, holds)
    needed = normal_quantile((1 + SURE) / 2) * sqrt(variance) / (target.tolerance * target.rate)
    scale, now = nominal(balance.shown.factor), events[-1].at
    at = max(now, min(start + needed / scale, until.shown.low))
    return Awaited(ground=(at - now) * scale, at=at)


def _reading_variance(begun: Balance, holds: float) -> float:
    """Variance of seed read in the box, the place of the reading in it. [kg²]"""
    read = [event.seed.u for event in begun.events if isinstance(event, Level)]
    limits = WEIGHED_LIMITS * nominal(begun.seed) if isinf(holds) else READING_LIMITS * holds
    seed = InBox(weight=0.0, u=read[-1] if read else limits / SQRT_THREE, by_volume=False)
    return Writer(begun.known).reading_variance(seed)
