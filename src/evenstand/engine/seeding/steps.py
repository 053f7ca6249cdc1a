"""The events of a box as steps of a filter: seed in the box, rate, and two errors that stay."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import sqrt

from ..catch.target import Target
from ..quantities.phrases import Phrase, say
from ..quantities.units import ACRE, SHARE
from ..statistics.budget import Quantity, nominal, standard_uncertainty, uncertain
from ..statistics.kalman import Move, Reading, State
from ..statistics.vectors import Matrix, Vector
from .events import Change, Event, Fill, Level, Load
from .field_area import AreaMeter, unchecked_meter
from .level import SQRT_THREE, InBox

DRIFT = 0.002  # judgement: rate wanders by 0.2 % over an acre, by √n times that over n
JUMP = 0.10  # judgement: how large a change part-way through a field usually is
UNKNOWN = 0.30  # judgement: rate of a drill that was never caught, about its target
READING = 0.05 * ACRE / SQRT_THREE  # judgement: an area meter that shows tenths of an acre
ROUNDING = 1e-9  # kg², so that a box swept empty twice can be read twice
SEED, FLOW, WEIGHT_ERROR, AREA_ERROR = range(4)
IDENTITY: Matrix = tuple(tuple(float(i == j) for j in range(4)) for i in range(4))
NOTHING: Vector = (0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a box before it is followed.

    Parameters
    ----------
    expected : Quantity, optional
        Field rate that Set promises; without one the target to ± 30%
        (standard uncertainty). [kg/m²]
    reading_u : float
        Standard uncertainty of reading an area off the meter; that of one
        which shows tenths of an acre where nothing is said. [m²]
    test_weight_error : float
        Relative standard uncertainty of the test weight that levels rest on. [-]
    drift : float
        What the rate wanders by over an acre. [-]
    """

    target: Target
    expected: Quantity | None = None
    meter: AreaMeter = field(default_factory=unchecked_meter)
    reading_u: float = READING
    test_weight_error: float = 0.0
    drift: float = DRIFT

    @property
    def assumed(self) -> tuple[Phrase, ...]:
        """What was taken for granted."""
        drift = say("the rate drifts {drift} over an acre", drift=SHARE(self.drift))
        if self.expected is not None:
            return (*self.meter.assumed, drift)
        text = "no catch beforehand: the rate may be {off} off (one standard deviation)"
        return (*self.meter.assumed, drift, say(text, off=SHARE(UNKNOWN)))

    @property
    def rate(self) -> float:
        """Rate that is looked for at the start. [kg/m²]"""
        return self.target.rate if self.expected is None else nominal(self.expected)

    @property
    def rate_u(self) -> float:
        """Its standard uncertainty. [kg/m²]"""
        if self.expected is None:
            return UNKNOWN * self.target.rate
        return standard_uncertainty(self.expected)

    @property
    def scale(self) -> float:
        """True ground ÷ what the meter shows. [-]"""
        return nominal(self.meter.factor)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step and the event it comes from; ``loaded`` is seed that comes in with it."""

    event: Event | None
    do: Move | Reading
    loaded: Quantity = 0.0


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes the steps, with quantities that carry their causes or as plain floats.

    ``jumps`` are areas on the meter where the rate may have changed unseen;
    ``looser`` multiplies the variance of the rate looked for at the start.
    """

    known: Known
    carry: bool = False
    jumps: tuple[float, ...] = ()
    looser: float = 1.0

    def _of(self, value: float, u: float, tag: str) -> Quantity:
        return uncertain(value, u, tag) if self.carry else value

    def start(self, first: Event) -> State:
        """State before the first event: an empty box, or one as read."""
        known = self.known
        us = (0.0, known.rate_u * sqrt(self.looser), known.test_weight_error, known.meter.u)
        mean = (
            0.0,
            self._of(known.rate, us[FLOW], "calibration"),
            self._of(0.0, us[WEIGHT_ERROR], "test weight"),
            self._of(0.0, us[AREA_ERROR], "area"),
        )
        spread = tuple(tuple(u * u * x for x in row) for u, row in zip(us, IDENTITY, strict=True))
        return State(mean, spread)

    def steps(self, events: Sequence[Event]) -> Iterator[Step]:
        """Every step in order; a level read first of all fills the box that far."""
        at, first = events[0].at, True
        for event in events:
            yield from self._ground(at, event.at)
            yield self._step(event, first=first)
            at, first = event.at, False

    def _ground(self, start: float, end: float) -> Iterator[Step]:
        """Sow from one reading of the meter to another, unseen changes on the way."""
        stops = [j for j in self.jumps if start <= j < end]
        for stop in stops:
            yield from self._sow(stop - start)
            yield Step(event=None, do=self._jump())
            start = stop
        yield from self._sow(end - start)

    def _jump(self) -> Move:
        u = JUMP * self.known.target.rate
        add = (0.0, self._of(0.0, u, "mid-field change"), 0.0, 0.0)
        return Move(matrix=IDENTITY, add=add, variances=(0.0, u * u, 0.0, 0.0))

    def _sow(self, shown: float) -> Iterator[Step]:
        """Seed goes down by rate × ground; the rate wanders half before, half after."""
        if not shown:
            return
        ground, rate = self.known.scale * shown, self.known.rate
        half = sqrt(ground / ACRE / 2) * self.known.drift * rate
        down = ((1.0, -ground, 0.0, -rate * ground), *IDENTITY[1:])
        for matrix in (IDENTITY, down):
            wander = (0.0, self._of(0.0, half, "rate drift"), 0.0, 0.0)
            move = Move(matrix=matrix, add=wander, variances=(0.0, half * half, 0.0, 0.0))
            yield Step(event=None, do=move)

    def _step(self, event: Event, *, first: bool) -> Step:
        match event:
            case Load():
                seed = self._of(event.weight, event.u, "loads")
                add, variances = (seed, 0.0, 0.0, 0.0), (event.u * event.u, 0.0, 0.0, 0.0)
                move = Move(matrix=IDENTITY, add=add, variances=variances)
                return Step(event=event, do=move, loaded=seed)
            case Fill():
                return Step(event=event, do=self._filled(event.seed))
            case Level():
                return Step(
                    event=event, do=self._filled(event.seed) if first else self._read(event.seed)
                )
            case Change():
                return Step(event=event, do=self._changed(event))

    def _filled(self, seed: InBox) -> Move:
        """The box holds what its level says, whatever was believed before."""
        u = sqrt(self.reading_variance(seed))
        add = (self._of(seed.weight, u, "box levels"), 0.0, 0.0, 0.0)
        matrix = ((0.0, 0.0, seed.by_test_weight, 0.0), *IDENTITY[1:])
        return Move(matrix=matrix, add=add, variances=(u * u, 0.0, 0.0, 0.0))

    def _read(self, seed: InBox) -> Reading:
        by = 0.0 - seed.by_test_weight
        variance = self.reading_variance(seed)
        value = self._of(seed.weight, sqrt(variance), "box levels")
        return Reading(of=(1.0, 0.0, by, 0.0), value=value, variance=variance)

    def reading_variance(self, seed: InBox) -> float:
        """Variance of seed read in a box, the place of the reading in it. [kg²]"""
        at = self.known.rate * self.known.scale * self.known.reading_u
        return seed.u * seed.u + at * at + ROUNDING

    def _changed(self, event: Change) -> Move:
        factor = nominal(event.factor)
        u = standard_uncertainty(event.factor) * self.known.rate
        rows = (IDENTITY[0], (0.0, factor, 0.0, 0.0), *IDENTITY[2:])
        add = (0.0, self._of(0.0, u, "the lever change"), 0.0, 0.0)
        return Move(matrix=rows, add=add, variances=(0.0, u * u, 0.0, 0.0))
