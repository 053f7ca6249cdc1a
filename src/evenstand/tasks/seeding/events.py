"""What happened to a box on the way, from the tables [[loads]] of a job file."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LOAD, NUMBER, SHARE, TEST_WEIGHT, VOLUME
from evenstand.engine.seeding.events import Change, Event, Fill, Level, bags, weighed
from evenstand.engine.seeding.level import InBox, read_level, weighed_out
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty, uncertain

from ..parsing.given import Given
from .meter import LeverPlace, Meter

LOADS = ("bags", "weight", "tote")
LEVER = ("setting", "gear")
TEST_WEIGHT_LIMITS = 0.02  # a measured test weight, where nothing is said


@dataclass(frozen=True, kw_only=True)
class BoxKnown:
    """A box as far as its level is read: what it holds, None where that is not known."""

    box: Box
    test_weight: Quantity | None

    @property
    def holds(self) -> float | None:
        """Seed in it, level full. [kg]"""
        if self.test_weight is None:
            return None
        return nominal(self.box.volume) * nominal(self.test_weight)

    @property
    def error(self) -> float:
        """Relative standard uncertainty of its test weight. [-]"""
        if self.test_weight is None:
            return 0.0
        u = standard_uncertainty(self.test_weight) / nominal(self.test_weight)
        return u or TEST_WEIGHT_LIMITS / sqrt(3)


def read_box(given: Given, *, name: str) -> BoxKnown:
    """Read the volume of a box and the test weight of what is in it."""
    known = "volume" in given
    volume = given.quantity("volume", VOLUME, tag="volume") if known else 1.0
    test_weight = given.quantity("test_weight", TEST_WEIGHT, tag="test weight") if known else None
    return BoxKnown(
        box=Box(name=name, volume=volume, seed=BOX_KINDS["grain"]), test_weight=test_weight
    )


def read_events(
    tables: Sequence[Given], known: BoxKnown, *, meter: Meter | None
) -> tuple[tuple[Event, ...], LeverPlace | None]:
    """Read all that happened to one box, and where its lever stands in the end.

    Parameters
    ----------
    meter : Meter, optional
        Where the lever stands at the start.
    """
    events: list[Event] = []
    place = meter.place if meter else None
    for given in tables:
        at = given.exact("at", FIELD, zero=True)
        with given.pointing(level=_level_key(given)):
            events += _of_seed(given, at, known)
        if any(key in given for key in LEVER):
            place, factor = _moved(given, meter, place)
            setting = place.setting if place else given.number("setting")
            events.append(Change(at=at, factor=factor, setting=setting))
    return tuple(events), place


def _moved(
    given: Given, meter: Meter | None, old: LeverPlace | None
) -> tuple[LeverPlace | None, Quantity]:
    """How the rate changes; anything within a third where no curve is known."""
    if meter is None or old is None:
        return None, uncertain(1.0, 0.3, "the lever change")
    return meter.moved(given, old)


def _level_key(given: Given) -> str:
    return next((key for key in ("level", "left", "mark") if key in given), "level")


def _of_seed(given: Given, at: float, known: BoxKnown) -> Iterator[Event]:
    """A level first, as it was read, then what was put in; a mark after that."""
    said = [key for key in ("level", "left", "mark", *LOADS, *LEVER) if key in given]
    if not said:
        need = say("enter level or left, or what was put in: bags, weight, tote")
        raise given.refuse("level", need)
    if "left" in given:
        weight = given.reading("left", LOAD).quantity("box levels")
        yield Level(at=at, seed=weighed_out(known.box, weight))
    elif "level" in given:
        yield Level(at=at, seed=_by_volume(given, "level", known))
    if "bags" in given:
        count = given.exact("bags", NUMBER)
        yield bags(at, count=count, weight=given.exact("bag", LOAD))
    if "weight" in given:
        yield weighed(at, given.quantity("weight", LOAD, tag="loads"))
    if "tote" in given:
        yield weighed(at, given.quantity("tote", LOAD, tag="loads"), tote=True)
    if "mark" in given:
        seed = _by_volume(given, "mark", known)
        filled = any(key in given for key in LOADS)
        yield Level(at=at, seed=seed) if filled else Fill(at=at, seed=seed)


def _by_volume(given: Given, key: str, known: BoxKnown) -> InBox:
    if known.test_weight is None:
        need = say(
            "enter the box's volume and test_weight under [sow], or weigh what is left: left"
        )
        raise given.refuse(key, need)
    full = given.reading(key, SHARE).quantity("box levels")
    return read_level(known.box, full, test_weight=known.test_weight)
