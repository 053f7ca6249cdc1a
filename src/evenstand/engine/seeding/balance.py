"""A box followed over a field: seed in, seed left, and the rate that lies between."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import fsum, inf, isinf, sqrt
from typing import Annotated

from ..boxes.box import Box
from ..quantities import units
from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LOAD, RATE, SHARE
from ..quantities.working import Line
from ..quantities.written import put
from ..statistics.budget import (
    Estimate,
    Quantity,
    Share,
    budget,
    estimate,
    nominal,
    normal_range,
    standard_uncertainty,
)
from ..statistics.distributions import normal_quantile
from ..statistics.kalman import Filtered, Move, State, move, observe
from .events import Change, Event, Fill, Level, Load, in_order
from .field_area import Shown
from .level import require_room
from .steps import AREA_ERROR, FLOW, SEED, Known, Step, Writer

CONFLICT = 2.5758293035489004  # standard deviations that 1 in 100 sound readings passes
IMPOSSIBLE = 4.0
MISSING = 0.25  # part of all loads by which a drill may be off and nothing be missing
HARD_TO_BELIEVE = 0.9995  # one sound reading in a thousand is farther off, either way


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """Where the rate stood after a reading, for a line along the acres.

    ``ground`` is true ground [m²]; ``in_box`` what is left [kg]; ``z`` how
    well the reading fitted, None for what is no reading. [kg/m²]
    """

    KEYS = ("ground", "rate", "in_box", put("misfit", "z"))

    ground: Annotated[float, FIELD]
    rate: Annotated[Estimate, units.RATE]
    in_box: Annotated[Estimate, LOAD]
    z: float | None = None
    lever_moved: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Ground between two readings of the box and what went down on it alone. [m²], [kg/m²]"""

    KEYS = (put("from", "start"), put("to", "end"), "rate")

    start: Annotated[float, FIELD]
    end: Annotated[float, FIELD]
    rate: Annotated[Estimate, units.RATE]


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """A box so far.

    ``rate`` is the rate now and ``mean_rate`` used ÷ ground since the start;
    ``shares`` and ``mean_shares`` are their budgets [kg/m²]. ``seed`` in the
    box and ``rate_now`` carry their causes, as does ``ground`` [kg], [m²].
    """

    known: Known
    events: tuple[Event, ...]
    points: tuple[Point, ...]
    stretches: tuple[Stretch, ...]
    seed: Quantity
    rate_now: Quantity
    loaded: Quantity
    ground: Quantity
    log_likelihood: float
    loosened: bool

    @property
    def rate(self) -> Estimate:
        """The rate now. [kg/m²]"""
        return estimate(self.rate_now, self.shares)

    @property
    def shares(self) -> tuple[Share, ...]:
        """What makes the rate now uncertain. [kg/m²]"""
        return budget(self.rate_now, {})

    @property
    def used(self) -> Quantity:
        """Seed that went down. [kg]"""
        return self.loaded - self.seed

    @property
    def mean(self) -> Quantity | None:
        """Used ÷ ground since the start, None before any ground. [kg/m²]"""
        return self.used / self.ground if nominal(self.ground) else None

    @property
    def shown(self) -> Shown:
        """The area meter now, with what is believed of it."""
        start, now = self.events[0].at, self.events[-1].at
        factor = self.ground / (now - start) if now > start else self.known.meter.factor
        return Shown(now=now, factor=factor)

    @property
    def innovations(self) -> tuple[float, ...]:
        """How well each reading since the lever was last moved fitted. [-]"""
        found: list[float] = []
        for point in self.points:
            if point.lever_moved:
                found.clear()
            elif point.z is not None:
                found.append(point.z)
        return tuple(found)


def follow(
    events: Sequence[Event],
    known: Known,
    *,
    box: Box | None = None,
    holds: float = inf,
    jumps: tuple[float, ...] = (),
) -> Balance:
    """Follow a box over the field.

    Parameters
    ----------
    events : sequence of Event, in the order of the area meter
    box : Box, optional
        For what is said of it.
    holds : float
        What goes into it, level full. [kg]
    jumps : tuple of float
        What the meter showed where the rate may have changed unseen. [m²]

    Raises
    ------
    MeasurementError
        For areas that go back, a load that does not fit into the box, more
        seed in it than was loaded, or more sown than there was.

    Notes
    -----
    Where the first reading lies so far from what Set promised that 1 in 100
    would, the promise is believed less, just so much that it fits.
    """
    events = in_order(events)
    plain = Writer(known, jumps=jumps)
    looser, first = 1.0, _first_z(events, plain)
    if first is not None and abs(first) > CONFLICT:
        looser = first * first
    writer = Writer(known, carry=True, jumps=jumps, looser=looser)
    return _Following(writer, box, holds).run(events, loosened=looser > 1)


def log_likelihood(events: Sequence[Event], known: Known, *, jumps: tuple[float, ...]) -> float:
    """Logarithm of the density that all readings have together, plain floats throughout."""
    writer = Writer(known, jumps=jumps)
    state, total = writer.start(events[0]), []
    for step in writer.steps(events):
        if isinstance(step.do, Move):
            state = move(state, step.do)
        else:
            seen = observe(state, step.do)
            state = seen.state
            total.append(seen.log_likelihood)
    return fsum(total)


def _first_z(events: Sequence[Event], writer: Writer) -> float | None:
    """How well the first reading after some ground fits, None without one."""
    state = writer.start(events[0])
    for step in writer.steps(events):
        if isinstance(step.do, Move):
            state = move(state, step.do)
            continue
        seen = observe(state, step.do)
        state = seen.state
        if step.event is not None and step.event.at > events[0].at:
            return seen.z
    return None


class _Following:
    """The run itself: the state, what came in, and where readings were made."""

    def __init__(self, writer: Writer, box: Box | None, holds: float) -> None:
        self.writer, self.known, self.box, self.holds = writer, writer.known, box, holds
        self.loaded: Quantity = 0.0
        self.zero = 0.0  # what the meter showed before any ground
        self.points: list[Point] = []
        self.stretches: list[Stretch] = []
        self.likelihood: list[float] = []
        self.last: _Read | None = None

    def run(self, events: tuple[Event, ...], *, loosened: bool) -> Balance:
        self.zero = events[0].at
        state = self.writer.start(events[0])
        for step in self.writer.steps(events):
            state = self._do(state, step)
        shown = events[-1].at - self.zero
        ground = self.known.scale * shown * (1 + state.mean[AREA_ERROR])
        return Balance(
            known=self.known,
            events=events,
            points=tuple(self.points),
            stretches=tuple(self.stretches),
            seed=state.mean[SEED],
            rate_now=state.mean[FLOW],
            loaded=self.loaded,
            ground=ground,
            log_likelihood=fsum(self.likelihood),
            loosened=loosened,
        )

    def _do(self, state: State, step: Step) -> State:
        event, seen, before = step.event, None, state
        if isinstance(event, Load):
            self._require_seed(event, state)
        if isinstance(step.do, Move):
            state = move(state, step.do)
        else:
            seen = observe(state, step.do)
            self._check_level(event, seen)
            state = seen.state
            self.likelihood.append(seen.log_likelihood)
        if isinstance(event, Fill | Level) and seen is None:
            self.loaded = self.loaded + state.mean[SEED] - before.mean[SEED]
        self.loaded = self.loaded + step.loaded
        if event is not None:
            self._require_room(event, state)
            self._note(event, state, seen)
        return state

    def _require_seed(self, event: Load, state: State) -> None:
        """Refuse ground for which the loads before it cannot have sufficed."""
        seed, loaded = nominal(state.mean[SEED]), nominal(self.loaded)
        if seed < -max(IMPOSSIBLE * state.u(SEED), MISSING * loaded):
            need = say(
                "more seed was used by {ground} than was loaded: is a load missing?",
                ground=FIELD(event.at),
            )
            raise MeasurementError("loads", loaded, need)

    def _require_room(self, event: Event, state: State) -> None:
        if isinstance(event, Load) and self.box is not None and not isinf(self.holds):
            seed, u = nominal(state.mean[SEED]), state.u(SEED)
            require_room(self.box, seed, holds=self.holds, u=u)

    def _check_level(self, event: Event | None, seen: Filtered) -> None:
        """Refuse a level above all that was loaded."""
        if not isinstance(event, Level):
            return
        loaded, u = nominal(self.loaded), standard_uncertainty(self.loaded)
        over = event.seed.weight - loaded
        if over > IMPOSSIBLE * sqrt(u * u + event.seed.u * event.seed.u) + 1e-6:
            need = say(
                "only {loaded} was loaded: check the level, or enter the missing load",
                loaded=LOAD(loaded),
            )
            raise MeasurementError("level", event.seed.weight, need)

    def _note(self, event: Event, state: State, seen: Filtered | None) -> None:
        ground = self.known.scale * (event.at - self.zero)
        self.points.append(
            Point(
                ground=ground,
                rate=_plain(state, FLOW),
                in_box=_plain(state, SEED),
                z=None if seen is None else seen.z,
                lever_moved=isinstance(event, Change),
            )
        )
        self._stretch(event, ground)

    def _stretch(self, event: Event, ground: float) -> None:
        """Work out what went down since the last reading, the rate before not believed."""
        if isinstance(event, Load):
            if self.last is not None:
                self.last = self.last.filled(event)
            elif event.at == self.zero:
                self.last = _Read(0.0, event.weight, event.u * event.u, 0.0)
        if isinstance(event, Load | Change):
            return
        seed, variance = event.seed, self.writer.reading_variance(event.seed)
        now = _Read(ground, seed.weight, variance, seed.by_test_weight)
        if isinstance(event, Level) and self.last is not None and ground > self.last.ground:
            rate = self.last.rate_to(now, self.known)
            self.stretches.append(Stretch(start=self.last.ground, end=ground, rate=rate))
        self.last = now


@dataclass(frozen=True, slots=True)
class _Read:
    """Seed in the box at a place of the field, and how much of it rests on the test weight."""

    ground: float
    seed: float
    variance: float
    by_test_weight: float

    def filled(self, load: Load) -> "_Read":
        variance = self.variance + load.u * load.u
        return replace(self, seed=self.seed + load.weight, variance=variance)

    def rate_to(self, end: "_Read", known: Known) -> Estimate:
        """Rate from here to a reading; in its range is what both share, meter and test weight."""
        area, used = end.ground - self.ground, self.seed - end.seed
        by = known.test_weight_error * (self.by_test_weight - end.by_test_weight)
        shown = known.meter.u * used
        u = sqrt(self.variance + end.variance + by * by + shown * shown) / area
        rate = used / area
        return normal_range(rate, u)


def _plain(state: State, index: int) -> Estimate:
    return normal_range(nominal(state.mean[index]), state.u(index))


def doubts(balance: Balance) -> tuple[Phrase, ...]:
    """Say what to check about the readings."""
    said = [odd] if (odd := _odd_reading(balance)) is not None else []
    if balance.loosened:
        text = (
            "The first reading doesn't fit the prediction, {rate} ± {u}: the "
            "prediction gets less weight."
        )
        u = SHARE(balance.known.rate_u / balance.known.rate, 2)
        said.append(say(text, rate=RATE(balance.known.rate), u=u))
    return tuple(said)


def _odd_reading(balance: Balance) -> Phrase | None:
    """Say which reading fits least, where one is hard to believe."""
    worst = max(
        (p for p in balance.points if p.z is not None), key=lambda p: abs(p.z or 0.0), default=None
    )
    if worst is None or worst.z is None or abs(worst.z) <= normal_quantile(HARD_TO_BELIEVE):
        return None
    text = "At {ground} the box had much less in it than expected: is the level right?"
    if worst.z > 0:
        text = "At {ground} the box had much more in it than expected: is a load missing?"
    return say(text, ground=FIELD(worst.ground))


def balance_lines(balance: Balance) -> tuple[Line, ...]:
    """Write the lines from loads and level to the mean rate so far.

    The rate now weighs every reading and what Set promised; these lines can
    be done with a pencil and should come near it.
    """
    used = used_line(nominal(balance.loaded), nominal(balance.seed))
    ground = nominal(balance.ground)
    if not ground:
        return (used,)
    words = say("Average rate so far: seed used ÷ area")
    return (used, rate_line(words, used=nominal(balance.used), ground=ground))


def used_line(loaded: float, left: float) -> Line:
    """Write what went down: loaded − left."""
    return Line(
        say("Seed used: loaded − left in the box"), LOAD(loaded - left), LOAD(loaded) - LOAD(left)
    )


def rate_line(words: Phrase, *, used: float, ground: float) -> Line:
    """Write a rate: used ÷ ground."""
    return Line(words, RATE(used / ground), LOAD(used) / FIELD(ground))
