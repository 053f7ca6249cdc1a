"""What happened to a box on the way, as the engine has it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt

from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.sown import Load
from evenstand.engine.boxes.box import BOX_KINDS, Box
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import FIELD, LOAD, NUMBER
from evenstand.engine.seeding.events import Change, Event, Fill, Level, bags, weighed
from evenstand.engine.seeding.level import InBox, read_level, weighed_out
from evenstand.engine.statistics.budget import Quantity, nominal, standard_uncertainty, uncertain

from ..drill.machines import quantity
from ..parsing.given import Given
from .meter import LeverPlace, Meter
from .said import BoxSaid, Happened

LOADS = ("bags", "weight", "tote")
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


def read_box(said: BoxSaid) -> BoxKnown:
    """Return the volume of a box and the test weight of what is in it."""
    volume, weight = said.volume, said.wanted.test_weight
    if volume and weight is None:
        raise said.given.refuse("test_weight", say("this is missing; enter it"))
    box = Box(
        name=said.wanted.box or "box",
        volume=quantity(volume, "volume") if volume else 1.0,
        seed=BOX_KINDS["grain"],
    )
    known = volume and weight
    return BoxKnown(box=box, test_weight=quantity(known, "test weight") if known else None)


def read_events(
    happened: Sequence[Happened], known: BoxKnown, *, meter: Meter | None
) -> tuple[tuple[Event, ...], LeverPlace | None]:
    """Return all that happened to one box, and where its lever stands in the end.

    Parameters
    ----------
    meter : Meter, optional
        Where the lever stands at the start.
    """
    events: list[Event] = []
    place = meter.place if meter else None
    for each in happened:
        at = each.given.plain("at", each.load.at, FIELD, zero=True)
        with each.given.pointing(level=_level_key(each.load)):
            events += _of_seed(each, at, known)
        if each.setting is not None or each.gear:
            factor = uncertain(1.0, 0.3, "the lever change")  # within a third, with no curve known
            if meter and place:
                place, factor = meter.moved(each, place)
            setting = place.setting if place else _setting(each)
            events.append(Change(at=at, factor=factor, setting=setting))
    return tuple(events), place


def _setting(each: Happened) -> float:
    if each.setting is None:
        raise each.given.refuse("setting", say("this is missing; enter it"))
    return each.setting


def _level_key(load: Load) -> str:
    return next((key for key in ("level", "left", "mark") if getattr(load, key)), "level")


def _of_seed(each: Happened, at: float, known: BoxKnown) -> Iterator[Event]:
    """A level first, as it was read, then what was put in; a mark after that."""
    load, given = each.load, each.given
    put_in = any(getattr(load, key) for key in LOADS)
    told = put_in or load.left or load.level or load.mark
    if not (told or each.gear or each.setting is not None):
        need = say("enter level or left, or what was put in: bags, weight, tote")
        raise given.refuse("level", need)
    if load.left:
        yield Level(at=at, seed=weighed_out(known.box, quantity(load.left, "box levels")))
    elif load.level:
        yield Level(at=at, seed=_by_volume(given, "level", load.level, known=known))
    yield from _put_in(load, given, at)
    if load.mark:
        seed = _by_volume(given, "mark", load.mark, known=known)
        yield Level(at=at, seed=seed) if put_in else Fill(at=at, seed=seed)


def _put_in(load: Load, given: Given, at: float) -> Iterator[Event]:
    """What was put in by weight: bags counted, a weight, a tote."""
    if load.bags:
        if load.bag is None:
            raise given.refuse("bag", say("this is missing; enter it"))
        count = given.plain("bags", load.bags, NUMBER)
        yield bags(at, count=count, weight=given.plain("bag", load.bag, LOAD))
    if load.weight:
        yield weighed(at, quantity(load.weight, "loads"))
    if load.tote:
        yield weighed(at, quantity(load.tote, "loads"), tote=True)


def _by_volume(given: Given, key: str, full: Typed, *, known: BoxKnown) -> InBox:
    if known.test_weight is None:
        need = say(
            "enter the box's volume and test_weight under [sow], or weigh what is left: left"
        )
        raise given.refuse(key, need)
    return read_level(known.box, quantity(full, "box levels"), test_weight=known.test_weight)
